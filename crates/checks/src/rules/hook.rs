//! The hook that the rigging hangs by, and the stations it has to come to: shared by the rules for hooks.

use plumbhook_model::ask::{Ask, words};
use plumbhook_model::entries::{OverheadCrane, SetUp};
use plumbhook_model::values::{MachineHook, MachineName, Station};
use plumbhook_model::{Case, Declared, Given, Members};
use plumbhook_sheet::{Lack, Origin};
use std::sync::Arc;

/// The hook that the rigging hangs by.
pub(super) struct HookUse<'c> {
    /// As the rigging names it.
    pub(super) name: &'c str,
    /// What the machine says of it.
    pub(super) given: &'c Given<MachineHook>,
    /// The name of what the legs gather in.
    pub(super) ring_name: &'c str,
    /// What that leads to; where it leads nowhere, that is noted.
    pub(super) ring: Option<&'c Arc<Declared>>,
    /// The place of the ring among the bodies that are solved, where it is on one of several hooks.
    pub(super) body: Option<usize>,
}

/// Asks for the hook of one of the machines, by its place in the move; what keeps from knowing it is noted. What is missing of the rigging itself is asked for
/// with the pose.
pub(super) fn hook<'c>(case: &'c Case, ask: &mut Ask<'c>, number: usize) -> Option<HookUse<'c>> {
    let hung_from = case.all_hung_from().get(number)?;
    let (_, rigging) = case.find::<plumbhook_model::entries::Rigging, _>(&hung_from.rigging)?;
    let hung = ask.value(
        "what the legs gather in, and its hook",
        &rigging.hung,
        |hung| words(&format!("{} by {}", hung.ring.name, hung.hook.name)),
    )?;
    let (ring, hook) = (&hung.value.ring, &hung.value.hook);
    let found = case.entry(ring);
    if found.is_none() {
        let _ = ask.entry::<(), _>(ring);
    }
    same_machine(&hung_from.machine, ask, hook);
    let hooks = hooks_of(case, ask, hook)?;
    let Some(inner) = hook.inner() else {
        ask.lacks(
            format!("which hook of {} it hangs by", hook.name),
            Lack::NotFound,
            &hook.origin,
            format!("name the hook behind a dot, as `{}.main`", hook.name),
        );
        return None;
    };
    let given = ask.member(&format!("hook {}", hook.name), hooks, inner)?;
    Some(HookUse {
        name: &hook.name,
        given,
        ring_name: &ring.name,
        ring: found,
        body: case
            .hanging()
            .things
            .iter()
            .find(|thing| thing.hook == Some(number))
            .and_then(|thing| thing.body),
    })
}

/// The hooks of the machine.
fn hooks_of<'c>(
    case: &'c Case,
    ask: &mut Ask<'c>,
    hook: &MachineName,
) -> Option<&'c Members<MachineHook>> {
    if let Some((_, set_up)) = case.find::<SetUp, _>(hook) {
        return Some(&set_up.hook);
    }
    let (_, crane) = ask.entry::<OverheadCrane, _>(hook)?;
    Some(&crane.hook)
}

/// The mobile crane that the rigging hangs by, by name; `None` where it hangs by another machine.
pub(super) fn mobile_crane(case: &Case) -> Option<&str> {
    let (_, rigging) = case.rigging()?;
    let hook = &rigging.hung.known()?.value.hook;
    case.find::<SetUp, _>(hook)
        .map(|(declared, _)| declared.name())
}

/// The rigging names its hook and the move its machine: they have to be the same machine.
fn same_machine(machine: &MachineName, ask: &mut Ask<'_>, hook: &MachineName) {
    if machine.head() != hook.head() {
        ask.lacks(
            format!(
                "the machine: the move is done by {}, its rigging hangs by {}",
                machine.name, hook.name
            ),
            Lack::NoAnswer,
            &hook.origin,
            "name the same machine in both",
        );
    }
}

/// The stations of the move; empty where that is not known, which is noted.
pub(super) fn stations<'c>(case: &'c Case, ask: &mut Ask<'c>) -> &'c [Station] {
    let Some(moves) = case.moves() else {
        return &[];
    };
    let stations = ask.value("stations", &moves.stations, |stations| {
        words(&stations.0.len().to_string())
    });
    stations.map_or(&[], |stations| &stations.value.0)
}

/// Where the rigging says what it hangs by, or would.
pub(super) fn home(case: &Case) -> Origin {
    case.rigging().map_or_else(
        || Origin::header(&case.movement.key),
        |(_, rigging)| rigging.hung.datum.origin().clone(),
    )
}
