//! Photo geometry by name.

use super::reader::{ArgError, Entry, Outcome, Reader, arg, opt};
use crate::sight::{Homography, Point, SOURCE};
use serde_json::json;

pub(super) const ENTRIES: &[Entry] = &[Entry {
    name: "homography",
    source: SOURCE,
    args: &[
        arg(
            "from",
            "list of x,y of four points or more, px",
            "207,95,461,132,436,312,198,255",
        ),
        arg("to", "list of x,y of as many points, mm", "0,0,6,0,6,4,0,4"),
        opt("point", "list of x,y, px", "317,199"),
    ],
    symbol: "H",
    unit: "record",
    run: homography,
}];

fn points(reader: &Reader<'_>, name: &str) -> Result<Vec<Point>, ArgError> {
    let list = reader.list(name)?;
    if list.len() % 2 != 0 || list.len() < 8 || list.len() > 2000 {
        return Err(reader.refuse(name, format!("{} numbers make no four points or more", list.len())));
    }
    Ok(list
        .chunks_exact(2)
        .filter_map(|pair| Point::try_from(pair).ok())
        .collect())
}

fn homography(reader: &Reader<'_>) -> Result<Outcome, ArgError> {
    let (from, to) = (points(reader, "from")?, points(reader, "to")?);
    let point = reader.list_of::<2>("point")?;
    let map = Homography::from_pairs(&from, &to).map_err(|why| reader.refuse("from", why.words()))?;
    let mapped = map
        .map(point)
        .ok_or_else(|| reader.refuse("point", "it lies on the horizon of this map"))?;
    let off = from.iter().zip(&to).filter_map(|(a, [x, y])| {
        let [u, v] = map.map(*a)?;
        Some((u - x).hypot(v - y))
    });
    let largest = off.fold(0.0, f64::max);
    let ([x, y], [u, v]) = (point, mapped);
    let mut steps: Vec<String> = map
        .rows
        .iter()
        .map(|[a, b, c]| format!("{a:.9e}  {b:.9e}  {c:.9e}"))
        .collect();
    steps.push(format!("({x}, {y}) → ({u}, {v})"));
    steps.push(format!(
        "largest distance of a given point from its partner: {largest:.3e}"
    ));
    let record = json!({ "matrix": map.rows.concat(), "mapped": mapped, "largest_off": largest });
    Ok(Outcome::record(record, steps))
}
