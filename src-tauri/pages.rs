//! Joins the pages' modules into one file and their styles into another, as a window opens two files faster than 170.
//!
//! Only the forms of `import` and `export` that `ui/` uses are known, each at the beginning of a line; any other ends the build
//! with its place. A module becomes a function that is called once, after those it imports from, and gives what it exports.
//! The tests of the screens take the modules as they are, those of the window take what is made here.

use std::collections::HashMap;
use std::fmt::Write;
use std::fs;
use std::io;
use std::path::{Component, Path, PathBuf};

/// Lays the pages of `from` joined into `to`: `index.html`, `app.js` and `app.css`.
pub fn join(from: &Path, to: &Path) -> io::Result<()> {
    let mut modules = Modules {
        from,
        done: HashMap::new(),
        out: String::new(),
    };
    modules.take(Path::new("app.js"))?;
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
    fs::create_dir_all(to)?;
    fs::write(to.join("index.html"), page)?;
    fs::write(to.join("app.css"), styles)?;
    fs::write(to.join("app.js"), modules.out)
}

/// Modules in the order in which they are called.
struct Modules<'p> {
    from: &'p Path,
    /// Number of each; none while it waits for those it imports from.
    done: HashMap<PathBuf, Option<usize>>,
    out: String,
}

impl Modules<'_> {
    /// Takes in a module with all that it imports from; gives its number.
    fn take(&mut self, name: &Path) -> io::Result<usize> {
        match self.done.get(name) {
            Some(Some(number)) => return Ok(*number),
            Some(None) => return Err(wrong(name, 0, "it imports from a module that imports from it")),
            None => drop(self.done.insert(name.to_owned(), None)),
        }
        let text = fs::read_to_string(self.from.join(name))?;
        let (mut body, mut gives) = (String::new(), Vec::new());
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
                let _infallible = writeln!(body, "const {what} = m{other};");
            } else if let Some(said) = line.strip_prefix("export ") {
                if let Some((what, other)) = said.split_once(" from ").filter(|_| said.starts_with(['*', '{'])) {
                    let other = self.take(&beside(name, other).ok_or_else(unknown)?)?;
                    match names(what) {
                        Some(given) => gives.extend(given.iter().map(|name| format!("{name}: m{other}.{name}"))),
                        None if what == "*" => gives.push(format!("...m{other}")),
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
            } else {
                body = body + line + "\n";
            }
        }
        let number = self.done.values().flatten().count();
        self.done.insert(name.to_owned(), Some(number));
        let gives = gives.join(", ");
        let _infallible = writeln!(
            self.out,
            "// {}\nconst m{number} = (() => {{\n{body}return {{ {gives} }};\n}})();",
            name.display()
        );
        Ok(number)
    }
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
