//! Taking the props out: small turns with what was read after each, until the record says that the last prop is out.

use super::gauges::{GaugeRead, gauges_moved};
use super::given;
use super::keep::kept;
use super::looks::{LookLine, looks};
use super::meaning::MOVED;
use super::permits::PermitState;
use super::seen::Versions;
use super::state::{SiteState, state};
use crate::failure::{Answer, Failure};
use crate::record::{Entry, Kind, Moment, NewEntry, Store, TAKE_OUT};
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};
use std::collections::{HashMap, HashSet};

/// Largest turn of a collar at once, in turns: the order of work says "a quarter turn at most" (own judgement).
pub const TURN: f64 = 0.25;
/// Most turns that a correction may tell of, as many as a round may read.
const MOST_TURNS: f64 = 40.0;
/// What one turn may move, mm, as in a round.
const THREADS_MM: std::ops::RangeInclusive<f64> = 1.0..=20.0;
/// What one turn moves where nobody measured the thread, mm (own judgement, as in a round).
const THREAD_MM: f64 = 6.0;

/// How far the props are out.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct TakingOut {
    /// Every prop of the proposal that stands.
    pub props: Vec<PropOut>,
    /// Number of entries that let props down.
    pub steps: usize,
    /// When the record says that the last prop was out, as RFC 3339.
    pub out_at: Option<String>,
    /// The same, milliseconds since 1970.
    #[serde(skip)]
    pub out_ms: Option<i64>,
    /// Looks at the cracks since then.
    pub looks: Vec<LookLine>,
}

/// One prop.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct PropOut {
    /// Its name.
    pub prop: String,
    /// What it was let down by so far, turns and mm.
    pub turns: f64,
    /// In mm.
    pub down_mm: f64,
    /// Whether it is out.
    pub out: bool,
}

/// One turn.
#[derive(Clone, Debug, Default, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Turn {
    /// The prop.
    pub prop: String,
    /// Turns of its collar, downwards.
    pub turns: f64,
    /// What one turn moves, mm.
    #[serde(default)]
    pub thread_mm: Option<f64>,
}

/// Props let down, as written.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct NewLetDown {
    /// Who does it.
    pub name: String,
    /// Props turned down, each by a quarter turn at most.
    #[serde(default)]
    pub turns: Vec<Turn>,
    /// Props that came out.
    #[serde(default)]
    pub out: Vec<String>,
    /// Every gauge that was read before.
    #[serde(default)]
    pub gauges: Vec<GaugeRead>,
    /// Whether beam, gap or wall moved, cracked or sagged.
    pub moved: bool,
    /// Anything else.
    #[serde(default)]
    pub words: String,
}

/// Names of the props of a kept proposal, those of the floors' own lines too.
fn prop_names(proposal: &Entry) -> Vec<String> {
    let index = proposal.body.get("option").and_then(Value::as_u64).unwrap_or_default();
    let option = proposal.body.pointer(&format!("/proposal/options/{index}"));
    let rows = |of: &Value| of.get("props").and_then(Value::as_array).cloned().unwrap_or_default();
    let lines = option.and_then(|option| option.get("floor_lines")?.as_array());
    let mut all: Vec<Value> = option.map(rows).unwrap_or_default();
    all.extend(lines.into_iter().flatten().flat_map(rows));
    let name = |prop: &Value| Some(prop.get("name")?.as_str()?.to_owned());
    all.iter().filter_map(name).collect()
}

fn rows<'a>(body: &'a Value, key: &str) -> impl Iterator<Item = &'a Value> {
    body.get(key).and_then(Value::as_array).into_iter().flatten()
}

/// What a correction of an entry that lets props down may say: turns of props of the proposal, each once. It may tell of more
/// than a quarter turn, since the record has to say what was done.
///
/// # Errors
///
/// `not_corrected`, saying what cannot be.
pub(super) fn corrected_turns(
    names: &[PropOut],
    change: &serde_json::Map<String, Value>,
) -> Answer<serde_json::Map<String, Value>> {
    let refused = |words: String| Failure::new("not_corrected", words);
    let known = |name: &str| names.iter().any(|prop| prop.prop == name);
    let unknown = |name: &str| format!("{name} is not among the props of the proposal.");
    let mut out = serde_json::Map::new();
    if let Some(turns) = change.get("turns") {
        let turns = given::turns(turns)?;
        for turn in &turns {
            let name = &turn.prop;
            if !known(name) {
                return Err(refused(unknown(name)));
            }
            if turns.iter().filter(|other| other.prop == *name).count() > 1 {
                return Err(refused(format!("{name} stands twice: give its turns once.")));
            }
            if !(turn.turns > 0.0 && turn.turns <= MOST_TURNS) {
                let words = format!(
                    "{name}: {} turns cannot be. More than 0, at most {MOST_TURNS}.",
                    turn.turns
                );
                return Err(refused(words));
            }
            if let Some(mm) = turn.thread_mm.filter(|mm| !THREADS_MM.contains(mm)) {
                let words = format!("{name}: one turn cannot move {mm} mm. It moves 1 to 20 mm.");
                return Err(refused(words));
            }
        }
        out.insert("turns".to_owned(), turns_body(&turns));
    }
    if let Some(gone) = change.get("out") {
        let gone = given::names("out", gone)?;
        if let Some(name) = gone.iter().find(|name| !known(name)) {
            return Err(refused(unknown(name)));
        }
        out.insert("out".to_owned(), json!(gone));
    }
    Ok(out)
}

/// Turns as an entry holds them.
fn turns_body(turns: &[Turn]) -> Value {
    let one =
        |turn: &Turn| json!({"prop": turn.prop, "turns": turn.turns, "thread_mm": turn.thread_mm.unwrap_or(THREAD_MM)});
    turns.iter().map(one).collect()
}

/// How far the props are out; `entries` are in fold order.
pub(super) fn taking_out(entries: &[Entry], permits: &[PermitState]) -> TakingOut {
    let proposal = entries.iter().rfind(|entry| entry.kind == Kind::ProposalKept);
    let mut out = TakingOut::default();
    let names = proposal.map(prop_names).unwrap_or_default();
    out.props.extend(names.into_iter().map(|prop| PropOut {
        prop,
        ..PropOut::default()
    }));
    // Props by name; a name that stands twice is two props.
    let mut places: HashMap<String, Vec<usize>> = HashMap::new();
    for (place, prop) in out.props.iter().enumerate() {
        places.entry(prop.prop.clone()).or_default().push(place);
    }
    let of = |name: &str| places.get(name).map_or(&[][..], Vec::as_slice);
    let mut last: Option<&Entry> = None;
    for versions in Versions::of_kind(entries, Kind::LetDown) {
        let (entry, body) = (versions.root, &versions.shown().body);
        out.steps += 1;
        for turn in rows(body, "turns") {
            let number = |key: &str| turn.get(key).and_then(Value::as_f64).unwrap_or_default();
            let place = turn
                .get("prop")
                .and_then(Value::as_str)
                .and_then(|name| of(name).first());
            if let Some(prop) = place.and_then(|place| out.props.get_mut(*place)) {
                prop.turns += number("turns");
                prop.down_mm += number("turns") * number("thread_mm");
            }
        }
        // Where two corrections stand that did not know of each other, a prop is out only if both say so.
        let mut named: HashSet<&str> = rows(body, "out").filter_map(Value::as_str).collect();
        for version in &versions.standing {
            let says: HashSet<&str> = rows(&version.body, "out").filter_map(Value::as_str).collect();
            named = named.intersection(&says).copied().collect();
        }
        for place in named.into_iter().flat_map(of) {
            if let Some(prop) = out.props.get_mut(*place).filter(|prop| !prop.out) {
                prop.out = true;
                last = Some(entry);
            }
        }
    }
    let standing = || {
        let mut permits = permits.iter().rev();
        let permit = permits.find(|permit| permit.code == TAKE_OUT && permit.stands)?;
        entries.iter().find(|entry| entry.hash == permit.entry)
    };
    // A support without props of its own is out when it may be: nothing else would ever say so.
    let done = match out.props.iter().all(|prop| prop.out) {
        true if out.props.is_empty() => standing(),
        true => last,
        false => None,
    };
    out.out_at = done.map(|entry| entry.moment.rfc3339());
    out.out_ms = done.map(|entry| entry.moment.utc_ms);
    out.looks = done.map(|entry| looks(entries, entry)).unwrap_or_default();
    out
}

/// Writes down that props were let down or taken out; what moved opens a finding in the same transaction.
///
/// # Errors
///
/// `name_missing`, `closed`, `no_permit`, `no_prop`, `too_much` for more than a quarter turn, `nothing_done`,
/// `gauges_missing`, or what the record said.
pub fn let_down(store: &mut Store, new: &NewLetDown, moment: Moment) -> Answer<Entry> {
    let now = state(store)?;
    super::closing::open_only(&now)?;
    let name = signed(&new.name, "/let_down/name")?;
    let may = now
        .permits
        .iter()
        .any(|permit| permit.code == TAKE_OUT && permit.stands);
    if !may {
        let words = "No permit to take the props out stands: it is given on Order first.";
        return Err(Failure::new("no_permit", words));
    }
    if new.turns.is_empty() && new.out.is_empty() {
        return Err(Failure::new(
            "nothing_done",
            "Say which prop was turned, or which came out.",
        ));
    }
    let stands = |name: &str| now.taking_out.props.iter().any(|prop| prop.prop == name && !prop.out);
    let named = new.turns.iter().map(|turn| &turn.prop).chain(&new.out);
    if let Some(unknown) = named.clone().find(|name| !stands(name)) {
        return Err(Failure::new(
            "no_prop",
            format!("{unknown} is not among the props that stand."),
        ));
    }
    let turned = |turn: &Turn| {
        let thread = turn.thread_mm.unwrap_or(THREAD_MM);
        let twice = new.turns.iter().filter(|other| other.prop == turn.prop).count() > 1;
        turn.turns > 0.0 && turn.turns <= TURN + 1e-9 && (1.0..=20.0).contains(&thread) && !twice
    };
    if let Some(turn) = new.turns.iter().find(|turn| !turned(turn)) {
        let words = format!("{}: a quarter turn at most, then read, then the next.", turn.prop);
        return Err(Failure::new("too_much", words));
    }
    let turns = turns_body(&new.turns);
    let moves = gauges_moved(store, &new.gauges)?;
    let proposal = kept(store)?.map(|kept| kept.entry);
    let body = json!({
        "proposal": proposal, "name": name, "turns": turns, "out": new.out, "gauges": new.gauges, "moved": new.moved,
        "words": new.words.trim(),
    });
    write(
        store,
        NewEntry::new(Kind::LetDown, body),
        moved_words(new.moved, moves),
        name,
        moment,
    )
}

/// Who writes it.
pub(super) fn signed<'a>(name: &'a str, field: &str) -> Answer<&'a str> {
    match name.trim() {
        "" => Err(Failure::new("name_missing", "Write the name of whoever says it.").at(field)),
        name => Ok(name),
    }
}

/// What opens a finding, in words.
pub(super) fn moved_words(moved: bool, mut gauges: Vec<String>) -> Vec<String> {
    if moved {
        gauges.push("Beam, gap or wall moved.".to_owned());
    }
    gauges
}

/// The entry, and with it the finding that it makes, in one transaction.
pub(super) fn write(store: &mut Store, new: NewEntry, moved: Vec<String>, name: &str, moment: Moment) -> Answer<Entry> {
    let mut entries = vec![new];
    if !moved.is_empty() {
        let body = json!({
            "category": MOVED, "words": moved.join(" "), "where": "", "prop": "", "name": name, "photos": [],
        });
        entries.push(NewEntry::new(Kind::Finding, body));
    }
    let written = store.append_many(moment, entries, None)?;
    let first = written.into_iter().next();
    first.ok_or_else(|| Failure::new("database", "The record kept nothing."))
}

impl SiteState {
    /// Whether the record says that every prop is out.
    #[must_use]
    pub const fn props_are_out(&self) -> bool {
        self.taking_out.out_ms.is_some()
    }
}
