//! Names that lead to a line of the plant and to no entry: level datums and grid lines.

use crate::ask::{mend_of_datum, mend_of_grid};
use crate::declare::{Link, Role};
use crate::entries::Plant;
use crate::scope::Scope;

/// What is wrong with such a name, and what would mend it; `None` where it leads somewhere, or where not one plant alone
/// is seen, which is told elsewhere.
pub(crate) fn fault(scope: &Scope, link: &Link<'_>) -> Option<(String, String)> {
    let mut plants = scope.plants();
    let plant = plants.next()?.of::<Plant>()?;
    if plants.next().is_some() {
        return None;
    }
    if link.role == Role::Datum {
        let declared = plant
            .datum
            .members
            .iter()
            .any(|(name, _)| **name == *link.name);
        return (!declared).then(|| {
            (
                format!("`{}` names no level datum of the plant", link.name),
                mend_of_datum(plant, link.name),
            )
        });
    }
    let declared = |name: &str| {
        let mut lines = plant.grid.lines.iter().filter_map(crate::Datum::known);
        lines.any(|given| given.value.lines.iter().any(|line| *line.name == *name))
    };
    let missing = link.name.split('/').find(|name| !declared(name))?;
    Some((
        format!(
            "`{missing}` of `{}` names no grid line of the plant",
            link.name
        ),
        mend_of_grid(plant, missing),
    ))
}
