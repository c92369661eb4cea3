//! Rulebooks that lie in folders which exist only here.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use bicinium_analysis::rulebook::{Collection, FILE_END, Held, Source, is_path};

/// Files by their paths.
#[derive(Default)]
pub struct Files(RefCell<BTreeMap<PathBuf, String>>);

impl Files {
    pub fn of(files: &[(&str, &str)]) -> Self {
        let all = Files::default();
        for (path, text) in files {
            all.save(path, text);
        }
        all
    }

    pub fn save(&self, path: &str, text: &str) {
        self.0.borrow_mut().insert(path.into(), text.to_owned());
    }

    pub fn remove(&self, path: &str) {
        self.0.borrow_mut().remove(Path::new(path));
    }
}

impl Source for Files {
    fn find(&self, name: &str, from: &Path) -> Option<PathBuf> {
        let files = self.0.borrow();
        let known = |path: PathBuf| files.contains_key(&path).then_some(path);
        if is_path(name) {
            return known(from.with_file_name(name));
        }
        let folders = from.ancestors().skip(1);
        folders.map(|folder| folder.join(format!("{name}{FILE_END}"))).find_map(known)
    }

    fn read(&self, path: &Path) -> Result<String, String> {
        let text = self.0.borrow().get(path).cloned();
        text.ok_or_else(|| "there is no such file".to_owned())
    }
}

/// Looks a file up and says what is known of it then.
pub fn looked_up<'c>(collection: &'c mut Collection, files: &Files, path: &str) -> &'c Held {
    collection.look_up(Path::new(path), files);
    collection.held(Path::new(path)).unwrap()
}

/// What is said about a file, in order.
pub fn messages(collection: &mut Collection, files: &Files, path: &str) -> Vec<String> {
    let held = looked_up(collection, files, path);
    held.problems.iter().map(|problem| problem.message.clone()).collect()
}
