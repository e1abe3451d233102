//! `hoist-plumb`: how far a hook may stand aside from plumb over what it lifts, as that comes free.

use super::hook::{self, HookUse};
use super::pose::{self, Posed};
use crate::draft::Compared;
use crate::example::HALL;
use crate::{Draft, Example, Outcome, Rule};
use plumbhook_mechanics::hanging::{Extreme, hang};
use plumbhook_model::ask::{Ask, Asked, Hurts};
use plumbhook_model::{Case, in_plan};
use plumbhook_sheet::{
    Aspect, Basis, InputValue, Lack, Method, Origin, Stage, Step, Trust, Verdict,
};
use plumbhook_units::{Amount, Band, Length, Measured, Round};

/// Nothing published that we have read says how far.
const PLUMB: Basis = Basis {
    publication: "hoists pull plumb",
    section: "how far aside is allowed, the move says",
    trust: Trust::CommonPractice,
};

/// The rule.
pub(super) static RULE: Rule = Rule {
    code: "hoist-plumb",
    summary: "As the load comes free no hook stands further aside from plumb than the move allows.",
    explanation: "\
The hook of one machine is set over the middle of where the centre of gravity may be; as the load comes free that \
swings below the hook, by half of its band along each axis, both together at the worst. Two hooks have to be as far \
apart in plan as what they carry hangs; the move says how far apart they are kept (`hooks-apart`), and the largest \
difference from what the bands leave is taken whole at each. Every other rule takes the hoists as plumb.\n\n\
Mends: a centre of gravity known better, a trial lift that sets the hook over it, hooks kept at the right distance, \
room for the swing and a limit that says so.",
    basis: &[PLUMB, Basis::STATICS, Basis::GEOMETRY],
    inputs: &[
        ("centre of gravity", Hurts::Both),
        ("limit out of plumb", Hurts::Low),
    ],
    may_lack: &[],
    lift: &HALL,
    examples: [
        Outcome::Shown(Example {
            say: "30 mm are allowed, and the centre of gravity may lie 40 mm off along both axes",
            subject: "bridge.main",
            change: &[("out-of-plumb at most 120 mm", "out-of-plumb at most 30 mm")],
        }),
        Outcome::Shown(Example {
            say: "120 mm are allowed",
            subject: "bridge.main",
            change: &[],
        }),
        Outcome::Shown(Example {
            say: "the move does not say how far is allowed",
            subject: "bridge.main",
            change: &[("  out-of-plumb at most 120 mm\n", "")],
        }),
        Outcome::Shown(Example {
            say: "the load hangs from nothing and only stands",
            subject: "hook",
            change: &[("by         bridge with chains-of-three", "by         none")],
        }),
    ],
    check,
};

/// How far aside, in metres: as proved, and at the worst.
#[derive(Clone, Copy, Default)]
struct Aside {
    proved: Option<f64>,
    worst: Option<f64>,
}

fn check(case: &Case) -> Vec<Aspect> {
    if case.only_stands() {
        let home = Origin::header(&case.movement.key);
        let draft = Draft::new("hook", home, Asked::default(), case.printer);
        return vec![draft.does_not_apply("the load hangs from nothing")];
    }
    let hooks = case.all_hung_from().len().max(1);
    (0..hooks).map(|number| one(case, number, hooks)).collect()
}

fn one(case: &Case, number: usize, hooks: usize) -> Aspect {
    let mut ask = Ask::new(case);
    let hook = hook::hook(case, &mut ask, number);
    let limit = limit(&mut ask);
    let found = if hooks > 1 {
        Found::Apart(Apart::ask(case, &mut ask, hooks))
    } else {
        Found::Swing(swing(case, &mut ask))
    };
    let name = hook.as_ref().map_or("hook", |hook| hook.name);
    let primary = case.moves().map_or_else(
        || Origin::header(&case.movement.key),
        |moves| moves.out_of_plumb.datum.origin().clone(),
    );
    let mut draft = Draft::new(name, primary, ask.asked, case.printer);
    draft.question = format!("whether {name} stands plumb over what it lifts");
    draft.basis = RULE.basis.to_vec();
    let aside = match &found {
        Found::Swing(swing) => put_swing(&mut draft, name, *swing),
        Found::Apart(apart) => apart.off(case, &mut draft),
    };
    if let Some(hook) = &hook {
        draft.relate(&hook.given.origin, "the hook");
    }
    let known = hook.is_some();
    let length = |value: f64| Amount::of(Length::from_si(value));
    let compared = Compared {
        proved: aside.proved.map(length),
        worst: aside.worst.filter(|_| known).map(length),
        capacity: limit.map(Amount::of),
    };
    if let Some(most) = compared.worst.or(compared.proved) {
        draft.mends.push(format!(
            "room for the load to swing {} to every side, said as the limit, would pass",
            case.printer.metric(most, Round::Up)
        ));
    }
    let mut aspect = draft.against(name, "may stand out of plumb by", compared);
    aspect.headline = said(case, &aspect, hook.as_ref());
    aspect
}

/// The headline, which says of a machine with others that it is one of them.
fn said(case: &Case, aspect: &Aspect, hook: Option<&HookUse<'_>>) -> String {
    let one_of = case.all_hung_from().len();
    match (&aspect.verdict, hook) {
        (Verdict::Over | Verdict::Within, Some(_)) if one_of > 1 => {
            format!(
                "{}, with {one_of} hooks apart as they are kept",
                aspect.headline
            )
        }
        _ => aspect.headline.clone(),
    }
}

/// How far the move allows; an issued job says it.
fn limit(ask: &mut Ask<'_>) -> Option<Length> {
    let moves = ask.case().moves()?;
    let due = std::mem::replace(&mut ask.due, Stage::Issue);
    let limit = ask.value("limit out of plumb", &moves.out_of_plumb, |limit| {
        InputValue::Exact(Amount::of(limit.0))
    });
    ask.due = due;
    limit.map(|limit| limit.value.0)
}

/// What it is found from.
enum Found<'c> {
    /// Half of the band of the centre of gravity in plan, in metres.
    Swing(Option<[f64; 2]>),
    /// Two hooks.
    Apart(Apart<'c>),
}

/// Half of where the centre of gravity may be in plan, along both level axes of the load in its attitude.
fn swing<'c>(case: &'c Case, ask: &mut Ask<'c>) -> Option<[f64; 2]> {
    let Some((declared, load)) = case.load() else {
        ask.lacks(
            "the load that hangs there",
            Lack::NotFound,
            &case.hanging_home(),
            "name a load that is declared",
        );
        return None;
    };
    let attitude = plumbhook_model::attitude(ask);
    let cg = plumbhook_model::centre_of_gravity(ask, declared, load);
    let plan = in_plan(attitude?, cg)?;
    Some(plan.map(|band| (band.hi - band.lo).si() / 2.0))
}

/// Wherever the hook is set, one end along an axis is at least half of that axis away; at the worst both come together.
fn put_swing(draft: &mut Draft, name: &str, swing: Option<[f64; 2]>) -> Aside {
    let Some([x, y]) = swing else {
        return Aside::default();
    };
    let length = |value: f64| Amount::of(Length::from_si(value));
    draft.book.0.push(Step::Method(Method {
        say: format!(
            "the centre of gravity from the middle of its band, below which {name} is set"
        ),
        residual: None,
        results: vec![
            ("along x".into(), length(x)),
            ("along y".into(), length(y)),
            ("both".into(), length(x.hypot(y))),
        ],
        basis: Basis::GEOMETRY,
    }));
    Aside {
        proved: Some(x.max(y)),
        worst: Some(x.hypot(y)),
    }
}

/// Two hooks and what they carry.
struct Apart<'c> {
    posed: Posed<'c>,
    stretch_known: bool,
    kept: Band<Length>,
}

impl<'c> Apart<'c> {
    fn ask(case: &'c Case, ask: &mut Ask<'c>, hooks: usize) -> Self {
        let posed = pose::ask(case, ask);
        posed.ask_least_mass(case, ask);
        let stretch_known = posed.ask_stretch(ask);
        Self {
            posed,
            stretch_known,
            kept: kept_apart(case, ask, hooks),
        }
    }

    /// The largest difference of the distance at which the hooks are kept from the distance of what they carry.
    fn off(&self, case: &Case, draft: &mut Draft) -> Aside {
        let things = &self.posed.hanging.things;
        let body = |hook: usize| things.iter().find(|t| t.hook == Some(hook))?.body;
        let (Some(first), Some(second)) = (body(0), body(1)) else {
            return Aside::default();
        };
        let Some((least, most)) = self.between(first, second) else {
            return Aside::default();
        };
        let length = |value: f64| Amount::of(Length::from_si(value));
        draft.book.0.push(Step::Method(Method {
            say: "how far apart in plan what the two hooks carry hangs, in all poses that the bands allow"
                .into(),
            residual: None,
            results: vec![("least".into(), length(least)), ("most".into(), length(most))],
            basis: Basis::STATICS,
        }));
        let middle = self.in_the_middle(first, second);
        if let Some(middle) = middle {
            draft.mends.push(format!(
                "hooks kept {} apart pull plumb in the middle of all bands",
                case.printer.metric(length(middle), Round::Nearest)
            ));
        }
        let kept = self.kept;
        let proved = middle.and_then(|middle| {
            let sides = [kept.lo(), kept.hi()].into_iter().flatten();
            sides
                .map(|side| (side.si() - middle).abs())
                .reduce(f64::max)
        });
        let worst = kept
            .both()
            .map(|(low, high)| (high.si() - least).max(most - low.si()).max(0.0));
        Aside {
            proved,
            worst: worst.filter(|_| self.posed.hanging.complete && self.stretch_known),
        }
    }

    /// The least and the most that two bodies hang apart in plan, by the box that holds each.
    fn between(&self, first: usize, second: usize) -> Option<(f64, f64)> {
        let worst = self.posed.worst?;
        let (one, other) = (pose::beside(worst, first)?, pose::beside(worst, second)?);
        let along = |axis: usize| {
            let ends = |of: [(&Extreme<Length>, &Extreme<Length>); 2]| {
                let (least, most) = *of.get(axis)?;
                Some((least.value.si(), most.value.si()))
            };
            let ((a_low, a_high), (b_low, b_high)) = (ends(one)?, ends(other)?);
            Some((b_low - a_high, b_high - a_low))
        };
        let (x, y) = (along(0)?, along(1)?);
        let nearest = |(low, high): (f64, f64)| {
            if low <= 0.0 && high >= 0.0 {
                0.0
            } else {
                low.abs().min(high.abs())
            }
        };
        let farthest = |(low, high): (f64, f64)| low.abs().max(high.abs());
        Some((nearest(x).hypot(nearest(y)), farthest(x).hypot(farthest(y))))
    }

    /// How far apart in plan they hang in the middle of all bands.
    fn in_the_middle(&self, first: usize, second: usize) -> Option<f64> {
        let pose = hang(&self.posed.hanging.rig()?.middle()).ok()?;
        let at = |body: usize| pose.bodies.get(body).map(|body| body.position);
        let ([ax, ay, _], [bx, by, _]) = (at(first)?, at(second)?);
        Some((bx - ax).si().hypot((by - ay).si()))
    }
}

/// How far apart two hooks are kept.
fn kept_apart(case: &Case, ask: &mut Ask<'_>, hooks: usize) -> Band<Length> {
    let Some(moves) = case.moves() else {
        return Band::unknown();
    };
    if hooks > 2 {
        ask.lacks(
            "how far apart more than two hooks are kept: it is not calculated yet",
            Lack::NoAnswer,
            moves.by.datum.origin(),
            "check by hand that each hoist pulls plumb",
        );
        return Band::unknown();
    }
    let due = std::mem::replace(&mut ask.due, Stage::Issue);
    let what = "how far apart in plan the hooks are kept";
    let band = ask.band(what, &moves.hooks_apart, Hurts::Both);
    ask.due = due;
    band
}
