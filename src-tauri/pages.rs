//! Joins the pages' modules into few files and their styles into one, as a window opens two files faster than 170.
//!
//! Only the forms of `import` and `export` that `ui/` uses are known, each at the beginning of a line; any other ends the build
//! with its place. A module becomes a function that is called once, after those it imports from, and gives what it exports.
//! What a module of the first file fetches when it needs it (`await import('…')`) comes into a file of its own, with what only
//! that needs; what several such files need comes into one that each of them is preceded by.
//! The tests of the screens take the modules as they are, those of the window take what is made here.

use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::fmt::Write;
use std::fs;
use std::io;
use std::path::{Component, Path, PathBuf};

/// How a module is fetched when it is needed.
const FETCH: &str = "await import(";
/// The file of what several others need.
const SHARED: &str = "shared";
/// What the first file fetches others with: the names of the files, then the module that is asked for.
const LATER: &str = "\
const m = []
const later = async (files, number) => {
  for (const file of files) (await import(`./${file}.js`)).give(m)
  return m[number]
}
";

/// Lays the pages of `from` joined into `to`: `index.html`, `app.js`, what that fetches later, and `app.css`.
pub fn join(from: &Path, to: &Path) -> io::Result<()> {
    fs::create_dir_all(to)?;
    let mut modules = Modules::of(from)?;
    modules.take(Path::new("app.js"))?;
    for (file, out) in &modules.outs {
        let whole = match file.as_str() {
            APP => format!("{LATER}{out}"),
            // What was given once is there.
            _ => {
                format!("let given = false\nexport const give = (m) => {{\nif (given) return\ngiven = true\n{out}}}\n")
            }
        };
        fs::write(to.join(file).with_extension("js"), whole)?;
    }
    let index = fs::read_to_string(from.join("index.html"))?;
    let (mut page, mut styles, mut linked) = (String::new(), String::new(), false);
    for line in index.lines() {
        match line
            .strip_prefix("<link rel=\"stylesheet\" href=\"")
            .and_then(|rest| rest.strip_suffix("\">"))
        {
            Some(name) => {
                styles += &fs::read_to_string(from.join(name))?;
                if !linked {
                    page += "<link rel=\"stylesheet\" href=\"app.css\">\n";
                }
                linked = true;
            }
            None => page = page + line + "\n",
        }
    }
    fs::write(to.join("index.html"), page)?;
    fs::write(to.join("app.css"), styles)
}

/// The first file, without its ending.
const APP: &str = "app";

/// Modules in the order in which they are called.
struct Modules<'p> {
    from: &'p Path,
    /// In which file each stands.
    files: HashMap<PathBuf, String>,
    /// Which files have to be there for a module that is fetched, in their order.
    needs: HashMap<PathBuf, Vec<String>>,
    /// Number of each; none while it waits for those it imports from.
    done: HashMap<PathBuf, Option<usize>>,
    /// What stands in each file.
    outs: BTreeMap<String, String>,
}

impl<'p> Modules<'p> {
    /// Finds out which module comes into which file.
    fn of(from: &'p Path) -> io::Result<Self> {
        let (first, fetched) = reached(from, Path::new("app.js"))?;
        let mut files: HashMap<PathBuf, String> = first.iter().map(|name| (name.clone(), APP.to_owned())).collect();
        let mut sets = Vec::new();
        for target in &fetched {
            let (mut all, more) = reached(from, target)?;
            if let Some(other) = more.difference(&fetched).next() {
                return Err(wrong(
                    other,
                    0,
                    "what is fetched later cannot be fetched by what was itself",
                ));
            }
            all.retain(|name| !first.contains(name));
            sets.push((target.clone(), all));
        }
        let mut needs = HashMap::new();
        for (target, all) in &sets {
            let own = target.with_extension("").to_string_lossy().replace('/', "-");
            let shared = |name: &PathBuf| sets.iter().filter(|(_, all)| all.contains(name)).count() > 1;
            // What several need is there before what needs it.
            let mut before = Vec::new();
            for (file, several) in [(SHARED, true), (own.as_str(), false)] {
                let mut mine = all.iter().filter(|name| shared(name) == several).peekable();
                if mine.peek().is_some() {
                    before.push(file.to_owned());
                }
                files.extend(mine.map(|name| (name.clone(), file.to_owned())));
            }
            needs.insert(target.clone(), before);
        }
        Ok(Self {
            from,
            files,
            needs,
            done: HashMap::new(),
            outs: BTreeMap::new(),
        })
    }

    /// Takes in a module with all that it imports from; gives its number.
    fn take(&mut self, name: &Path) -> io::Result<usize> {
        match self.done.get(name) {
            Some(Some(number)) => return Ok(*number),
            Some(None) => return Err(wrong(name, 0, "it imports from a module that imports from it")),
            None => drop(self.done.insert(name.to_owned(), None)),
        }
        let text = fs::read_to_string(self.from.join(name))?;
        let (mut body, mut gives, mut fetches) = (String::new(), Vec::new(), false);
        let mut lines = (1..).zip(text.lines());
        while let Some((at, line)) = lines.next() {
            let unknown = || wrong(name, at, "this form is not known to what joins the pages");
            if let Some(said) = line.strip_prefix("import ") {
                let (what, other) = said.split_once(" from ").ok_or_else(unknown)?;
                let other = self.take(&beside(name, other).ok_or_else(unknown)?)?;
                let what = match what.strip_prefix("* as ") {
                    Some(whole) => whole.to_owned(),
                    None => what.replace(" as ", ": "),
                };
                let _infallible = writeln!(body, "const {what} = m[{other}];");
            } else if let Some(said) = line.strip_prefix("export ") {
                if let Some((what, other)) = said.split_once(" from ").filter(|_| said.starts_with(['*', '{'])) {
                    let other = self.take(&beside(name, other).ok_or_else(unknown)?)?;
                    match names(what) {
                        Some(given) => gives.extend(given.iter().map(|name| format!("{name}: m[{other}].{name}"))),
                        None if what == "*" => gives.push(format!("...m[{other}]")),
                        None => return Err(unknown()),
                    }
                } else if said.starts_with("const {") {
                    let mut whole = said.to_owned();
                    while !whole.contains('}') {
                        let (_, more) = lines.next().ok_or_else(unknown)?;
                        whole = whole + "\n" + more;
                    }
                    let (what, _) = whole.split_once(" = ").ok_or_else(unknown)?;
                    gives.extend(names(&what["const ".len()..]).ok_or_else(unknown)?);
                    body = body + &whole + "\n";
                } else if said != "{}" {
                    let declared = ["const ", "function ", "async function "].iter();
                    let declared = declared.filter_map(|word| said.strip_prefix(word)).next();
                    let given = declared.ok_or_else(unknown)?;
                    let end = given.find(|letter: char| !letter.is_alphanumeric() && letter != '_' && letter != '$');
                    gives.push(given[..end.filter(|end| *end > 0).ok_or_else(unknown)?].to_owned());
                    body = body + said + "\n";
                }
            } else if let Some((before, said)) = line.split_once(FETCH) {
                let (target, behind) = said.split_once(')').ok_or_else(unknown)?;
                let target = beside(name, target).ok_or_else(unknown)?;
                let number = self.take(&target)?;
                let files = self.needs.get(&target).ok_or_else(unknown)?;
                let _infallible = writeln!(body, "{before}await later({files:?}, {number}){behind}");
                fetches = true;
            } else {
                body = body + line + "\n";
            }
        }
        let number = self.done.values().flatten().count();
        self.done.insert(name.to_owned(), Some(number));
        let (gives, shown) = (gives.join(", "), name.display());
        let file = self
            .files
            .get(name)
            .ok_or_else(|| wrong(name, 0, "nothing leads to it"))?;
        let out = self.outs.entry(file.clone()).or_default();
        let (waits, its) = if fetches { ("await ", "async ") } else { ("", "") };
        let _infallible = writeln!(
            out,
            "// {shown}\nm[{number}] = {waits}({its}() => {{\n{body}return {{ {gives} }};\n}})();"
        );
        Ok(number)
    }
}

/// The modules that one imports from, itself and theirs among them, and those which these fetch later.
fn reached(from: &Path, name: &Path) -> io::Result<(BTreeSet<PathBuf>, BTreeSet<PathBuf>)> {
    let (mut all, mut fetched, mut open) = (BTreeSet::new(), BTreeSet::new(), vec![name.to_owned()]);
    while let Some(name) = open.pop() {
        if !all.insert(name.clone()) {
            continue;
        }
        let text = fs::read_to_string(from.join(&name))?;
        for line in text.lines() {
            let said = line.split_once(FETCH).and_then(|(_, said)| said.split_once(')'));
            if let Some((target, _)) = said {
                fetched.extend(beside(&name, target));
            } else if line.starts_with("import ") || line.starts_with("export ") {
                open.extend(line.rsplit_once(" from ").and_then(|(_, other)| beside(&name, other)));
            }
        }
    }
    Ok((all, fetched))
}

/// The module that a text in quotes names, as seen from another.
fn beside(name: &Path, quoted: &str) -> Option<PathBuf> {
    let path = quoted.strip_prefix('\'')?.strip_suffix('\'')?;
    let mut whole = name.parent()?.to_owned();
    for part in Path::new(path).components() {
        match part {
            Component::CurDir => {}
            Component::ParentDir => drop(whole.pop()),
            Component::Normal(part) => whole.push(part),
            _ => return None,
        }
    }
    Some(whole)
}

/// The names in braces; none where there are no braces, or a name is given another.
fn names(what: &str) -> Option<Vec<String>> {
    let inside = what.trim().strip_prefix('{')?.strip_suffix('}')?;
    let names = inside.split(',').map(str::trim).filter(|name| !name.is_empty());
    let names: Vec<String> = names.map(str::to_owned).collect();
    let plain = |name: &String| name.chars().all(|letter| letter.is_alphanumeric() || letter == '_');
    names.iter().all(plain).then_some(names)
}

fn wrong(name: &Path, line: usize, what: &str) -> io::Error {
    io::Error::other(format!("ui/{}:{line}: {what}", name.display()))
}
