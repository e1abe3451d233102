//! `hook-height`: how high and how low the hook has to come at each station, against where it bears.

use super::beyond::{Beyond, End, Way, farthest, reduce};
use super::hook::{self, HookUse};
use super::pose::{self, Posed};
use super::stack::{At, Part, Stack};
use super::{remedy, tiers};
use crate::draft::{Numbers, cannot_tell};
use crate::example::HALL;
use crate::{Draft, Example, Outcome, Rule};
use plumbhook_mechanics::hanging::{Extreme, Worst};
use plumbhook_model::Case;
use plumbhook_model::ask::{Ask, Asked, Hurts, words};
use plumbhook_model::values::{HeightOf, Standing};
use plumbhook_sheet::{Aspect, Basis, Step, Verdict};
use plumbhook_units::{Amount, Band, Length, Measured, Printer, Round};

/// The rule.
pub(super) static RULE: Rule = Rule {
    code: "hook-height",
    summary: "At every station the hook bears between its highest and its lowest level.",
    explanation: "\
The level of the hook's bearing is the underside of the load at the station, the height of the load's origin \
above its lowest point (more where it hangs tilted), the rise of the legs above that origin, and the length of \
the ring inside. The highest of all stations is compared with how high the hook bears, the lowest with how low; \
each part stands at its hurting side: tolerances of length, of the centre of gravity, of the floor's level, and \
the stretch of the slings. A sling that does not say how far it stretches leaves the highest level unknown. A station may give the \
height of the centre of gravity (`cg`) or of the hook instead.\n\n\
Mends: shorter or longer legs, the load lower or higher at that station.",
    basis: &[Basis::GEOMETRY, Basis::STATICS],
    inputs: &[
        ("mass of the load", Hurts::Both),
        ("centre of gravity", Hurts::Both),
        ("length of each piece", Hurts::Both),
        ("stiffness of each sling", Hurts::Both),
        ("length of the ring", Hurts::Both),
        ("level of the floor", Hurts::Both),
        ("height at the station", Hurts::Both),
        ("highest level of the hook", Hurts::Low),
        ("lowest level of the hook", Hurts::High),
    ],
    may_lack: &[],
    lift: &HALL,
    examples: [
        Outcome::Shown(Example {
            say: "a hook that bears up to EL 57.00 m has to come to EL 58.2 m",
            subject: "bridge.main",
            change: &[("bears-up-to EL 59.20 m", "bears-up-to EL 57.00 m")],
        }),
        Outcome::Shown(Example {
            say: "a hook that bears up to EL 59.20 m",
            subject: "bridge.main",
            change: &[],
        }),
        Outcome::Shown(Example {
            say: "nobody has measured how long the ring is inside",
            subject: "bridge.main",
            change: &[("inside     340 mm +/- 5 mm", "inside     unknown")],
        }),
        Outcome::Shown(Example {
            say: "the load hangs from nothing and only stands",
            subject: "hook",
            change: &[("by         bridge with chains-of-three", "by         none")],
        }),
    ],
    check,
};

/// A level that the hook has to come to, by the station in the list.
type Level = Beyond<usize>;

fn check(case: &Case) -> Vec<Aspect> {
    let home = hook::home(case);
    if case.only_stands() {
        let draft = Draft::new("hook", home, Asked::default(), case.printer);
        return vec![draft.does_not_apply("the load hangs from nothing")];
    }
    let hooks = case.all_hung_from().len().max(1);
    (0..hooks).map(|number| one(case, number)).collect()
}

fn one(case: &Case, number: usize) -> Aspect {
    let home = hook::home(case);
    let mut ask = Ask::new(case);
    let (posed, stretch_known) = if only_hooks(case) {
        // How it hangs below a hook whose own height is given moves nothing.
        (Posed::unasked(case), true)
    } else {
        let posed = pose::ask(case, &mut ask);
        posed.ask_least_mass(case, &mut ask);
        let stretch_known = posed.ask_stretch(&mut ask);
        (posed, stretch_known)
    };
    let hook = hook::hook(case, &mut ask, number);
    if let Some((plant, body)) = case.plant() {
        // Levels of a frame that nobody describes lie anywhere.
        let what = format!("frame of {}", plant.name());
        ask.value(&what, &body.frame, |frame| words(&frame.0));
    }
    let pose_known = posed.hanging.complete && stretch_known;
    let rows = hook::stations(case, &mut ask);
    let stations = At::all(&mut ask, rows);
    tiers::refuse_height_of_hook(case, &mut ask, rows);
    let asking = Asking {
        case,
        posed: &posed,
        stack: Stack::ask(case, &mut ask, hook.as_ref(), pose_known, &stations),
        stations,
        limits: limits(&mut ask, hook.as_ref()),
        ring: hook.as_ref().and_then(|hook| hook.body),
    };
    let name = hook.as_ref().map_or("hook", |hook| hook.name);
    let mut draft = Draft::new(name, home, ask.asked, case.printer);
    draft.basis = RULE.basis.to_vec();
    let levels = asking.levels(posed.worst);
    let (reach, governing) = reduce(&levels);
    let verdict = draft.judge(reach);
    if let Some(level) = governing {
        asking.put_on_sheet(&mut draft, hook.as_ref(), level);
        if verdict == Verdict::Over {
            draft.mends = asking.mends(level);
        }
    }
    asking.say(draft, verdict, name, &levels)
}

/// Whether every station gives the height of the hook itself.
fn only_hooks(case: &Case) -> bool {
    let stations = case.moves().and_then(|moves| moves.stations.known());
    stations.is_some_and(|stations| {
        let mut rows = stations.value.0.iter();
        rows.len() > 0 && rows.all(|row| row.of == HeightOf::Hook)
    })
}

/// How high and how low the hook bears.
fn limits(ask: &mut Ask<'_>, hook: Option<&HookUse<'_>>) -> [Band<Length>; 2] {
    let Some(hook) = hook else {
        return [Band::unknown(); 2];
    };
    let (name, given) = (hook.name, hook.given);
    [
        ask.level_part(
            &format!("how high {name} bears"),
            given,
            "bears-up-to EL",
            given.value.up.as_ref(),
            Hurts::Low,
        ),
        ask.level_part(
            &format!("how low {name} bears"),
            given,
            "bears-down-to EL",
            given.value.down.as_ref(),
            Hurts::High,
        ),
    ]
}

/// All that the levels are made of.
struct Asking<'c> {
    case: &'c Case,
    posed: &'c Posed<'c>,
    stack: Stack,
    stations: Vec<At<'c>>,
    limits: [Band<Length>; 2],
    /// The place of the ring among the bodies, where it is on one of several hooks.
    ring: Option<usize>,
}

impl Asking<'_> {
    /// Every level while the rig hangs as `worst` says.
    fn levels(&self, worst: Option<&Worst>) -> Vec<Level> {
        let [up, down] = self.limits;
        let ways = [(Way::Up, End::low(up)), (Way::Down, End::high(down))];
        let stations = self.stations.iter().enumerate();
        stations
            .flat_map(|(index, at)| {
                let parts = &self.stack.parts(at.station.of, worst);
                ways.map(|(way, limit)| Beyond {
                    of: index,
                    way,
                    comes: parts
                        .iter()
                        .map(|part| part.end(way))
                        .fold(at.level.end(way), End::plus),
                    limit,
                })
            })
            .collect()
    }

    fn at(&self, level: &Level) -> Option<&At<'_>> {
        self.stations.get(level.of)
    }

    /// The sum that governs, the corner of its pose, and the places that made it so.
    fn put_on_sheet(&self, draft: &mut Draft, hook: Option<&HookUse<'_>>, level: &Level) {
        let Some(at) = self.at(level) else { return };
        draft.primary = at.station.height_origin.clone();
        draft.state = format!("station {}", at.number);
        if let Some(extreme) = self.rise(level.way) {
            draft.corner = self.posed.hanging.corner(extreme);
        }
        let length = |value: f64| Amount::of(Length::from_si(value));
        let parts: Vec<(String, Amount)> = std::iter::once(&at.level)
            .chain(&self.stack.parts(at.station.of, self.posed.worst))
            .filter_map(|part: &Part| {
                Some((part.what.clone(), length(part.end(level.way).shown()?)))
            })
            .collect();
        if let Some(total) = level.comes.shown() {
            let total = length(total);
            draft.book.0.push(Step::Sum {
                say: format!("level of the hook's bearing at station {}", at.number),
                parts,
                total,
            });
        }
        if let Some((_, load)) = self.case.load() {
            draft.relate(load.shape.datum.origin(), "shape of the load");
        }
        if let (Some(leg), Some(rise)) = (
            self.posed.hanging.legs.first(),
            self.rise(level.way).map(|rise| rise.value),
        ) && let Some((low, high)) = leg.length.both()
        {
            let metric = |length| Printer::default().metric(Amount::of(length), Round::Nearest);
            let made_up = metric((low + high) / 2.0);
            let rises = metric(rise);
            draft.relate(&leg.origin, format!("{made_up} made up, rises {rises}"));
        }
        if let Some(hook) = hook {
            draft.relate(&hook.given.origin, "where the hook bears");
        }
        draft.relate_corner();
    }

    fn rise(&self, way: Way) -> Option<&Extreme<Length>> {
        let worst = self.posed.worst?;
        let found = match way {
            Way::Up => pose::highest_rise(worst, self.ring),
            Way::Down => pose::lowest_rise(worst, self.ring),
        };
        found.map(|(extreme, _)| extreme)
    }

    fn say(&self, draft: Draft, verdict: Verdict, name: &str, levels: &[Level]) -> Aspect {
        let governing = farthest(levels);
        let told = !matches!(verdict, Verdict::CannotTell(_));
        // Rounded as the headline is, so that both say one number.
        let outward = governing.map_or(Round::Nearest, |level| level.way.outward());
        let mut steps = draft.book.0.iter();
        let sum = steps
            .find_map(|step| sum_line(step, outward))
            .filter(|_| told);
        let headline = match (&verdict, governing) {
            (Verdict::CannotTell(missing), _) => {
                cannot_tell(&format!("how high and how low {name} has to come"), missing)
            }
            (Verdict::Over, Some(level)) => self.short(name, level),
            _ => {
                let both = [Way::Up, Way::Down].map(|way| {
                    farthest(levels.iter().filter(|level| level.way == way))
                        .map_or_else(String::new, |level| self.room(level))
                });
                format!("{name} {}", both.join(" and "))
            }
        };
        let length = |end: Option<f64>| end.map(|end| Amount::of(Length::from_si(end)));
        let numbers = Numbers {
            demand: governing.and_then(|level| length(level.comes.shown())),
            capacity: governing.and_then(|level| length(level.limit.shown())),
            utilisation: None,
        };
        let mut aspect = draft.finish(verdict, headline, numbers);
        aspect.sums.extend(sum);
        aspect
    }

    /// "at station 2 the hook would have to be at EL 120.90 m; hall-crane.main bears up to EL 118.95 m: 1.95 m
    /// short".
    fn short(&self, name: &str, level: &Level) -> String {
        let number = self.at(level).map_or(0, |at| at.number);
        let (comes, bears, by) = printed(level);
        let (to, short) = match level.way {
            Way::Up => ("up to", "short"),
            Way::Down => ("down to", "too low"),
        };
        format!(
            "at station {number} the hook would have to be at {comes}; {name} bears {to} {bears}: {by} {short}"
        )
    }

    /// "comes up to EL 58.17 m at station 2 (bears up to EL 59.18 m)".
    fn room(&self, level: &Level) -> String {
        let number = self.at(level).map_or(0, |at| at.number);
        let (comes, bears, _) = printed(level);
        let to = match level.way {
            Way::Up => "up to",
            Way::Down => "down to",
        };
        format!("comes {to} {comes} at station {number} (bears {to} {bears})")
    }

    fn mends(&self, level: &Level) -> Vec<String> {
        let mut mends = Vec::new();
        let Some((at, by)) = self.at(level).zip(level.by().shown()) else {
            return mends;
        };
        if let Some(legs) = self.other_legs(level, by) {
            mends.push(legs);
        }
        if !matches!(at.station.standing, Standing::On(_)) {
            let by = Amount::of(Length::from_si(by));
            mends.push(format!(
                "the {} {} {} at station {} would pass there",
                at.station.of.column(),
                self.case.printer.metric(by, Round::Up),
                if level.way == Way::Up {
                    "lower"
                } else {
                    "higher"
                },
                at.number
            ));
        }
        mends
    }

    /// Legs of another length that pass at every station and come no flatter than the rule sets cover.
    fn other_legs(&self, level: &Level, by: f64) -> Option<String> {
        let hanging = self.posed.hanging;
        // In tiers no one length mends all.
        if hanging.has_tiers() {
            return None;
        }
        let extreme = self.rise(level.way)?;
        let outward = if level.way == Way::Up { -1.0 } else { 1.0 };
        // A leg shorter by so much lowers the hook by more; one too short to hang at all is short enough here, and
        // is thrown out by the proof.
        let far_enough = |change: f64| {
            let extra = Length::from_si(outward * change);
            remedy::pose_with_longer_legs(hanging, &extreme.corner, extra)
                .and_then(|pose| Some(pose.bodies.first()?.rise))
                .is_none_or(|rise| outward * (rise.si() - extreme.value.si()) >= by)
        };
        let change = remedy::least_change(by, far_enough)?;
        let (least, _) = pose::least_angle(self.case)?;
        let passes = |worst: &Worst| {
            let angles = (0..hanging.legs.len()).filter_map(|leg| pose::flattest(worst, leg));
            let levels = self.levels(Some(worst));
            levels
                .iter()
                .all(|level| level.by().shown().is_some_and(|by| by <= 0.0))
                && angles.into_iter().all(|(angle, _)| angle.value >= least)
        };
        let extra = remedy::proved_by_steps(hanging, outward * change, passes)?;
        Some(remedy::legs_made_up(hanging, self.case.printer, extra))
    }
}

/// The level it comes to, the level it bears, and how far one lies beyond the other, each rounded to its hurting side.
fn printed(level: &Level) -> (String, String, String) {
    let (outward, inward) = (level.way.outward(), level.way.inward());
    let level_text = |end: End, round| {
        end.shown().map_or_else(
            || "EL unknown".to_owned(),
            |end| Printer::level_rounded(Length::from_si(end), round),
        )
    };
    let by = level.by().shown().unwrap_or_default();
    (
        level_text(level.comes, outward),
        level_text(level.limit, inward),
        Printer::default().metric(Amount::of(Length::from_si(by)), Round::Up),
    )
}

/// "EL 113.10 m + 1.62 m + 6.18 m = EL 120.90 m".
fn sum_line(step: &Step, outward: Round) -> Option<String> {
    let Step::Sum { parts, total, .. } = step else {
        return None;
    };
    let level = |amount: &Amount| Printer::level(Length::from_si(amount.si));
    let (first, rest) = parts.split_first()?;
    let parts: Vec<String> = std::iter::once(level(&first.1))
        .chain(
            rest.iter()
                .map(|(_, part)| Printer::default().metric(*part, Round::Nearest)),
        )
        .collect();
    let total = Printer::level_rounded(Length::from_si(total.si), outward);
    Some(format!("{} = {total}", parts.join(" + ")))
}
