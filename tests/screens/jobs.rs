//! Jobs in the states that a screen can be found in, made by the commands alone.

use crate::app::App;
use serde_json::{Value, json};
use upstay_lib::form::{Fields, flatten};

/// A ready house type whose proposal holds once somebody independent has looked at it.
const HOUSE: &str = "two_storey_cavity";

/// A job that was only begun.
pub fn empty(app: &App) -> String {
    let begun = json!({"name": "Weir Cottage, kitchen", "place": "Mill Lane 3", "country": "england"});
    text(&app.invoke("job_begin", begun).unwrap(), "/id")
}

/// The demo: described, kept, one round done.
pub fn demo(app: &App) -> String {
    text(&app.invoke("demo_open", json!({})).unwrap(), "/id")
}

/// A job that is described in full.
pub fn described(app: &App) -> String {
    with(app, &[])
}

/// A job that is described with things that cannot be.
pub fn wrong(app: &App) -> String {
    with(
        app,
        &[
            ("/opening/width_m", "-2"),
            ("/wall/leaves/0/thickness_mm", "102 m"),
            ("/opening/head_m", "abc"),
        ],
    )
}

/// A job that this tool refuses.
pub fn refused(app: &App) -> String {
    with(app, &[("/answers/cellar", "yes")])
}

/// A job on which nothing stands that can be proposed.
pub fn nothing_holds(app: &App) -> String {
    with(
        app,
        &[
            ("/roof/span_m", "14"),
            ("/above/0/floor/inside_span_m", "9"),
            ("/wall/leaves/1/mortar", "lime"),
        ],
    )
}

/// A job with a proposal kept.
pub fn kept(app: &App) -> String {
    let id = described(app);
    let fields = fields();
    let figure = app.invoke("figure", json!({"fields": fields, "option": 0})).unwrap();
    let aim = text(&figure, "/proposal/options/0/aim");
    app.invoke("keep", json!({"id": id, "fields": fields, "aim": aim}))
        .unwrap();
    id
}

/// A kept job of ten props, the first width of opening that needs so many; gives its id and their names.
pub fn ten(app: &App) -> (String, Vec<String>) {
    for tenths in 24..60 {
        let width = format!("{}.{}", tenths / 10, tenths % 10);
        let mut all = fields();
        all.insert("/opening/width_m".to_owned(), width.clone());
        let figure = app.invoke("figure", json!({"fields": all, "option": 0})).unwrap();
        let Some(option) = figure.pointer("/proposal/options/0") else {
            continue;
        };
        let named = |list: &str| -> Vec<String> {
            let list = option.get(list).and_then(Value::as_array).cloned().unwrap_or_default();
            list.iter().map(|one| text(one, "/name")).collect()
        };
        let props = named("props");
        if props.len() != 10 {
            continue;
        }
        let id = with(app, &[("/opening/width_m", &width)]);
        let aim = text(option, "/aim");
        app.invoke("keep", json!({"id": id, "fields": all, "aim": aim}))
            .unwrap();
        return (id, props);
    }
    panic!("no opening needs ten props")
}

/// A kept job whose round stands at its first prop.
pub fn at_prop(app: &App) -> String {
    let id = kept(app);
    write(app, &id, &[("/round/place", "N1-in"), ("/round/over_m", "1")]);
    id
}

/// A kept job whose round has come to a prop that stops the work.
pub fn stopped(app: &App) -> String {
    let id = at_prop(app);
    let missing = [("/round/N1-in/pin", "missing"), ("/round/N1-in/foot_firm", "false")];
    write(app, &id, &missing);
    id
}

/// A kept job whose round has come to what is asked of the whole job, with doors that stick.
pub fn at_whole(app: &App) -> String {
    let id = kept(app);
    write(app, &id, &[("/round/place", "whole"), ("/round/doors_stick", "true")]);
    id
}

/// A kept job at which something was seen that needs doing but stops nothing else.
pub fn found(app: &App) -> String {
    seen(app, "load_on_floors")
}

/// A kept job at which the wall moved.
pub fn moving(app: &App) -> String {
    seen(app, "moves")
}

fn seen(app: &App, category: &str) -> String {
    let id = kept(app);
    let finding = json!({"category": category, "what": "Bricks stacked over N2", "where": "first floor", "prop": null, "name": "Sam Weir"});
    app.invoke("finding_add", json!({"id": id, "finding": finding}))
        .unwrap();
    id
}

/// A kept job whose props may be taken out: a whole round that passed, with one crack gauge, and the permits over it.
pub fn taking_out(app: &App) -> String {
    let id = kept(app);
    let open = app.invoke("job_open", json!({"id": id})).unwrap();
    let at = open.pointer("/kept/option").and_then(Value::as_u64).unwrap();
    let option = open.pointer(&format!("/kept/proposal/options/{at}")).unwrap();
    let of = |value: &Value| {
        value
            .get("props")
            .and_then(Value::as_array)
            .cloned()
            .unwrap_or_default()
    };
    let lines = option
        .get("floor_lines")
        .and_then(Value::as_array)
        .cloned()
        .unwrap_or_default();
    let props: Vec<Value> = of(option).into_iter().chain(lines.iter().flat_map(of)).collect();
    let readings: Vec<Value> = props
        .iter()
        .map(|prop| {
            json!({"prop": prop["name"], "pin": "right", "collar_turns": 0, "thread_mm": 6, "lean_mm": [4, 0], "over_m": 2,
                "head_off_mm": 5, "foot_off_mm": 0, "foot_firm": true, "straight": true, "fixed": true, "packed": true})
        })
        .collect();
    let round = json!({"why": "before taking out", "name": "Sam Weir", "readings": readings,
        "gauges": [{"name": "Kitchen, over the door", "mm": 1.2}],
        "job_checks": {"braces": true, "doors_stick": false, "load_on_floors": false, "digging": false, "wind_m_s": 5}});
    app.invoke("round_done", json!({"id": id, "round": round})).unwrap();
    let stops = app.invoke("job_open", json!({"id": id})).unwrap();
    let order = stops
        .pointer("/kept/proposal/order")
        .and_then(Value::as_array)
        .unwrap()
        .clone();
    let mut seen: std::collections::HashMap<String, usize> = std::collections::HashMap::new();
    for step in order.iter().filter(|step| step["stop"] == true) {
        let code = text(step, "/code");
        let number = seen.entry(code.clone()).or_default();
        *number += 1;
        let pass = json!({"id": id, "stop": format!("{code}/{number}"), "name": "Ada Roy", "setOut": false});
        app.invoke("stop_pass", pass).unwrap();
    }
    id
}

/// The same with every prop out.
pub fn taken_out(app: &App) -> String {
    let id = taking_out(app);
    let open = app.invoke("job_open", json!({"id": id})).unwrap();
    let props = open
        .pointer("/state/taking_out/props")
        .and_then(Value::as_array)
        .unwrap();
    let out: Vec<Value> = props.iter().map(|prop| prop["prop"].clone()).collect();
    let step = json!({"name": "Sam Weir", "turns": [], "out": out, "moved": false, "words": "",
        "gauges": [{"name": "Kitchen, over the door", "mm": 1.3}]});
    app.invoke("let_down", json!({"id": id, "step": step})).unwrap();
    id
}

/// The same, closed over looks that are still missing.
pub fn closed(app: &App) -> String {
    let id = taken_out(app);
    let closing = json!({"name": "Sam Weir", "anyway": "The engineer looked at the cracks and wrote it down"});
    app.invoke("job_close", json!({"id": id, "closing": closing})).unwrap();
    id
}

/// A job with names and numbers of its people.
pub fn peopled(app: &App) -> String {
    let id = kept(app);
    let people = [
        ("/job/people/engineer", "Ada Roy"),
        ("/job/people/engineer_phone", "+44 1632 960123"),
    ];
    write(app, &id, &people);
    id
}

/// A job whose record was changed behind the app's back.
pub fn damaged(app: &App) -> String {
    let id = empty(app);
    app.invoke("note_add", json!({"id": id, "text": "as it was"})).unwrap();
    let file = app.home().join("data/jobs").join(&id).join("record.sqlite");
    let db = rusqlite::Connection::open(file).unwrap();
    let change =
        "DROP TRIGGER entry_no_update; UPDATE entry SET body = '{\"text\":\"as it was not\"}' WHERE kind = 'note';";
    db.execute_batch(change).unwrap();
    id
}

/// A job that was begun question by question, up to the list of what is strange.
pub fn started(app: &App) -> String {
    let id = described(app);
    let mut said: Vec<(String, &str)> = [
        "width", "head", "wall", "storeys", "floors", "roof", "sides", "feet", "beam",
    ]
    .iter()
    .map(|page| (format!("/job/start/said/{page}"), "yes"))
    .collect();
    said.push(("/job/start/house".to_owned(), HOUSE));
    said.push(("/job/start/at".to_owned(), "strange"));
    let said: Vec<(&str, &str)> = said.iter().map(|(field, text)| (field.as_str(), *text)).collect();
    write(app, &id, &said);
    id
}

/// The same with a yes that takes the job out of what a layman may do.
pub fn strange(app: &App) -> String {
    let id = started(app);
    let yes = [
        ("/answers/cellar", "yes"),
        ("/answers/cracked", "unknown"),
        ("/job/start/strange/loose", "yes"),
    ];
    write(app, &id, &yes);
    id
}

/// A start with a house chosen and measures that cannot be.
pub fn wrong_start(app: &App) -> String {
    let id = wrong(app);
    write(app, &id, &[("/job/start/house", HOUSE)]);
    id
}

/// Fields of the ready house.
pub fn fields() -> Fields {
    flatten(&calc::example::job(HOUSE).unwrap())
}

/// Types into fields of a job, as its screens do.
pub fn write(app: &App, id: &str, fields: &[(&str, &str)]) {
    let open = app.invoke("job_open", json!({"id": id})).unwrap();
    let counter = open.pointer("/counter").and_then(Value::as_u64).unwrap_or_default();
    let writes: Vec<Value> = fields
        .iter()
        .zip(counter + 1..)
        .map(|((field, text), counter)| json!({"field": field, "text": text, "counter": counter}))
        .collect();
    app.invoke("draft_put", json!({"id": id, "writes": writes})).unwrap();
}

fn with(app: &App, changed: &[(&str, &str)]) -> String {
    let id = empty(app);
    let mut all = fields();
    for (field, text) in changed {
        all.insert((*field).to_owned(), (*text).to_owned());
    }
    let all: Vec<(&str, &str)> = all
        .iter()
        .map(|(field, text)| (field.as_str(), text.as_str()))
        .collect();
    write(app, &id, &all);
    id
}

fn text(value: &Value, path: &str) -> String {
    value
        .pointer(path)
        .and_then(Value::as_str)
        .unwrap_or_else(|| panic!("{path} is no text in {value}"))
        .to_owned()
}
