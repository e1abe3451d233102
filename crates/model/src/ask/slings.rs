//! Asking what a sling carries in its hitch: by its tag, or by a published table where the yard says so; never by both.

use super::{Ask, words};
use crate::entries::Sling;
use crate::values::{Hitch, PieceUse, SlingKind};
use crate::{Datum, Given, RuleSet};
use plumbhook_mechanics::sling::{NoChoke, of_choker_rating};
use plumbhook_sheet::{Basis, Lack, Method, Step};
use plumbhook_units::{Amount, Measured, RatedForce, Round};

/// What one part of a sling carries in its hitch, along its length, and how that comes about.
#[derive(Clone, Debug)]
pub struct SlingRated {
    /// What it carries.
    pub capacity: RatedForce,
    /// Rows of tables and shares that lead there.
    pub steps: Vec<Step>,
    /// Their publications.
    pub basis: Vec<Basis>,
}

impl SlingRated {
    /// As marked.
    pub fn of(capacity: RatedForce) -> Self {
        Self {
            capacity,
            steps: vec![],
            basis: vec![],
        }
    }

    /// A look-up that leads to another capacity.
    pub(super) fn then(&mut self, say: String, capacity: RatedForce, basis: Basis) {
        self.capacity = capacity;
        self.steps.push(Step::Method(Method {
            say,
            residual: None,
            results: vec![("rated".into(), Amount::of(capacity))],
            basis,
        }));
        if !self.basis.contains(&basis) {
            self.basis.push(basis);
        }
    }
}

/// The sling that is asked, as it stands in its leg.
pub(super) struct Piece<'p, 'c> {
    pub(super) name: &'p str,
    pub(super) sling: &'c Sling,
    used: &'p PieceUse,
}

impl Piece<'_, '_> {
    pub(super) fn hitch(&self) -> Hitch {
        self.used.hitched.hitch
    }

    /// What is asked: `rated capacity of rope-38 as a choker`.
    pub(super) fn what(&self, hitch: Hitch) -> String {
        let as_a = match hitch {
            Hitch::Vertical => "",
            Hitch::Choker => " as a choker",
            Hitch::Basket => " in a basket",
        };
        format!("rated capacity of {}{as_a}", self.name)
    }
}

impl<'c> Ask<'c> {
    /// What one part of a sling carries in the hitch that it stands in. Its tag counts first; a published table only
    /// where it has no rating of a tag and the yard says `rated-by table`.
    pub fn sling_rating(
        &mut self,
        name: &str,
        sling: &'c Sling,
        used: &PieceUse,
    ) -> Option<SlingRated> {
        let piece = Piece { name, sling, used };
        let by_table = sling.rated.lines.is_empty() && !sling.rated_by.is_absent();
        let mut rated = if by_table {
            self.by_table(&piece)
        } else {
            self.by_tag(&piece)
        };
        match piece.hitch() {
            Hitch::Vertical => {}
            Hitch::Choker => self.choked(&piece, rated.as_mut()),
            Hitch::Basket => self.in_basket(&piece),
        }
        rated
    }

    fn by_tag(&mut self, piece: &Piece<'_, 'c>) -> Option<SlingRated> {
        let hitch = piece.hitch();
        let claims = &piece.sling.rated;
        let rates = |hitch: Hitch| {
            let mut known = claims.lines.iter().filter_map(Datum::known);
            known.any(|given| given.value.hitch == Some(hitch))
        };
        let unread = claims.lines.iter().any(|line| line.known().is_none());
        if hitch != Hitch::Vertical && !rates(hitch) && rates(Hitch::Vertical) && !unread {
            return self.by_factor(piece);
        }
        let what = piece.what(hitch);
        let tag = self.rating(&what, claims, |rated| rated.hitch == Some(hitch))?;
        let mut rated = SlingRated::of(tag);
        if hitch == Hitch::Basket {
            let half = RatedForce::from_si(tag.si() / 2.0);
            let say = format!("each of the two parts of {} carries half", piece.name);
            rated.then(say, half, Basis::STATICS);
        }
        Some(rated)
    }

    /// What it is made of.
    pub(super) fn kind_of(&mut self, piece: &Piece<'_, 'c>) -> Option<&'c Given<SlingKind>> {
        let printer = self.case.printer;
        let what = format!("kind of {}", piece.name);
        self.value(&what, &piece.sling.kind, |kind| words(&kind.words(printer)))
    }

    /// The tag rates a straight pull alone: the rule sets have to say what another hitch leaves of it.
    fn by_factor(&mut self, piece: &Piece<'_, 'c>) -> Option<SlingRated> {
        let (hitch, of) = (piece.hitch(), piece.what(Hitch::Vertical));
        let claims = &piece.sling.rated;
        let straight = |rated: &crate::values::Rated| rated.hitch == Some(Hitch::Vertical);
        let rules_known = self.rules_known();
        let kind = self.kind_of(piece).map(|kind| &*kind.value.of);
        let factors: Option<Vec<_>> = self
            .case
            .rules
            .iter()
            .map(|set| factor(set, kind?, hitch))
            .collect();
        let least = factors
            .unwrap_or_default()
            .into_iter()
            .min_by(|a, b| a.factor.total_cmp(&b.factor));
        let Some(least) = least.filter(|_| rules_known) else {
            let sets: Vec<_> = self.case.rules.iter().map(|set| set.word).collect();
            self.lacks(
                format!(
                    "{}: its tag rates a straight pull, and rule set {} has no share of that",
                    piece.what(hitch),
                    sets.join(", ")
                ),
                Lack::NoAnswer,
                claims.lines.first().map_or(&claims.home, Datum::origin),
                format!(
                    "add a line `rated {} … from tag` to `{}`",
                    hitch.word(),
                    piece.name
                ),
            );
            return None;
        };
        let tag = self.rating(&of, claims, straight)?;
        let mut rated = SlingRated::of(tag);
        let capacity = RatedForce::from_si(tag.si() * least.factor);
        let say = format!(
            "{} of its rating for a straight pull: {}",
            least.factor,
            hitch.word()
        );
        rated.then(say, capacity, least.basis);
        Some(rated)
    }

    /// What the angle of choke leaves; without it the whole rating can still convict.
    fn choked(&mut self, piece: &Piece<'_, 'c>, rated: Option<&mut SlingRated>) {
        let name = piece.name;
        let what = format!("angle of choke of {name}");
        let at = &piece.used.gear.origin;
        let Some(choke) = &piece.used.hitched.choke else {
            self.lacks(
                what,
                Lack::Absent,
                at,
                "say `choke at least … deg` behind it",
            );
            return;
        };
        let Some(least) = choke.lo else {
            let mend = "say how small it may be: `choke at least … deg`";
            self.lacks(
                format!("{what}: how small it may be"),
                Lack::OneSided,
                at,
                mend,
            );
            return;
        };
        self.note(&format!("{what}, at the least"), Amount::of(least), at);
        let Some(rated) = rated else { return };
        let printed = self.case.printer.metric(Amount::of(least), Round::Down);
        let Some(kind) = self.kind_of(piece) else {
            return;
        };
        match of_choker_rating(rated.capacity, least, &kind.value.of) {
            Ok(left) => {
                let say = format!(
                    "choked at {printed}: {} % of the rating of a choker",
                    left.per_cent
                );
                rated.then(say, left.rated, left.basis);
            }
            Err(NoChoke::Angle { .. }) => {
                self.lacks(
                    what,
                    Lack::OutOfRange,
                    at,
                    "an angle of choke lies between 0 and 180 deg",
                );
            }
            Err(NoChoke::Kind) => self.lacks(
                format!("what {name} keeps of its rating when choked at {printed}"),
                Lack::NoAnswer,
                at,
                "choke it wider than 120 deg; below that only wire rope has a published share here",
            ),
        }
    }

    /// A basket rating holds for two parts alike, round something thick enough, that the sling does not slide on.
    fn in_basket(&mut self, piece: &Piece<'_, 'c>) {
        let (name, at) = (piece.name, &piece.used.gear.origin);
        let hitched = &piece.used.hitched;
        let legs = self.case.hanging().legs.iter();
        let parts = legs
            .flat_map(|leg| &leg.pieces)
            .filter(|(other, _)| other.gear.origin == *at)
            .count();
        if parts != 2 {
            self.lacks(
                format!("the two parts of {name} in a basket: this line gives it {parts}"),
                Lack::NoAnswer,
                at,
                "write a line `legs` with two points for each sling in a basket",
            );
        }
        if !hitched.fast {
            self.lacks(
                format!("whether {name} is kept from sliding where it goes round the load"),
                Lack::Absent,
                at,
                "say `fast` behind it where grooves or cleats hold it: sliding makes its parts unequal",
            );
        }
        let least = self.exact(
            &format!("diameter that {name} may go round"),
            &piece.sling.bends_over,
        );
        let over = hitched.over.as_ref().and_then(|over| over.lo);
        let what = format!("diameter that {name} goes round");
        let Some(over) = over else {
            let mend = "say how small it is: `over at least …` behind the sling";
            self.lacks(what, Lack::Absent, at, mend);
            return;
        };
        self.note(&format!("{what}, at the least"), Amount::of(over), at);
        if let Some(least) = least.filter(|least| over < *least) {
            let least = self.case.printer.metric(Amount::of(least), Round::Up);
            self.lacks(
                format!("rating of {name} round so small a diameter: its own holds from {least}"),
                Lack::NoAnswer,
                at,
                format!("go round {least} or more, with packing on the load"),
            );
        }
    }
}

fn factor<'s>(set: &'s RuleSet, kind: &str, hitch: Hitch) -> Option<&'s crate::HitchFactor> {
    let mut all = set.hitch_factors.iter();
    all.find(|factor| factor.kind == kind && factor.hitch == hitch)
}
