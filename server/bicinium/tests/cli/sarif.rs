//! The log for programs that collect findings, against the schema of the standard.

use std::path::PathBuf;
use std::process::{Command, Output, Stdio};

use serde_json::{Value, json};

use crate::run::{CLEAN, Folder, LICENCE, OCTAVES};

/// Reads a log on standard input and the path of the schema as argument; says what is not valid.
const VALIDATE: &str = "\
import json, sys
from jsonschema import Draft7Validator
schema = json.load(open(sys.argv[1], encoding='utf-8'))
Draft7Validator.check_schema(schema)
errors = list(Draft7Validator(schema).iter_errors(json.load(sys.stdin)))
print('\\n'.join(error.message for error in errors))
sys.exit(bool(errors))
";

fn log(folder: &Folder, arguments: &[&str]) -> Value {
    let ran = folder.run(&[&["check", "--format", "sarif"], arguments].concat());
    serde_json::from_str(&ran.out).unwrap()
}

/// A log with everything that can be in one.
fn full_log() -> Value {
    let folder = Folder::with("a sheet.bicinium", format!("{OCTAVES}{LICENCE}\n{OCTAVES}"));
    folder.save("clean.bicinium", CLEAN);
    folder.save("broken.bicinium", b"\xff");
    log(&folder, &["a sheet.bicinium", "clean.bicinium", "broken.bicinium"])
}

#[test]
fn a_log_is_valid() {
    let log = full_log();
    assert!(log["runs"][0]["results"].as_array().unwrap().len() > 2);
    let Some(output) = validated(&log) else { return };
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stdout));
    let mut spoilt = log;
    spoilt["runs"][0]["results"][0]["level"] = json!("fault");
    assert!(!validated(&spoilt).unwrap().status.success(), "nothing would ever be invalid");
}

/// What a validator that knows nothing of us says; `None` where there is none.
fn validated(log: &Value) -> Option<Output> {
    let is_there = Command::new("python3").args(["-c", "import jsonschema"]).output();
    if !is_there.is_ok_and(|output| output.status.success()) {
        assert!(std::env::var_os("CI").is_none(), "python3 with jsonschema is needed");
        println!("skipped: python3 with jsonschema is needed");
        return None;
    }
    let folder = Folder::new();
    folder.save("log.json", log.to_string());
    let mut command = Command::new("python3");
    command.args(["-c", VALIDATE]).arg(schema());
    command.stdin(Stdio::from(std::fs::File::open(folder.path("log.json")).unwrap()));
    Some(command.output().unwrap())
}

/// The schema of SARIF 2.1.0, which comes with the library that we write it with.
fn schema() -> PathBuf {
    let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let mut command = Command::new(cargo);
    command.args(["metadata", "--locked", "--format-version", "1"]);
    // Without it every library of every platform would have to be there.
    command.args(["--filter-platform", &platform()]);
    let metadata: Value = serde_json::from_slice(&command.output().unwrap().stdout).unwrap();
    let packages = metadata["packages"].as_array().unwrap();
    let library = packages.iter().find(|it| it["name"] == "serde-sarif").unwrap();
    let manifest = PathBuf::from(library["manifest_path"].as_str().unwrap());
    manifest.with_file_name("src").join("schema.json")
}

/// The platform on which the test runs.
fn platform() -> String {
    let about = Command::new("rustc").arg("-vV").output().unwrap().stdout;
    let about = String::from_utf8(about).unwrap();
    about.lines().find_map(|line| line.strip_prefix("host: ")).unwrap().to_owned()
}

#[test]
fn findings_become_results() {
    let log = log(&Folder::with("a b.bicinium", OCTAVES), &["--level", "fault"]);
    let run = &log["runs"][0];
    assert_eq!(log["version"], "2.1.0");
    assert_eq!(run["columnKind"], "utf16CodeUnits");
    let results = run["results"].as_array().unwrap();
    let [result] = results.as_slice() else { panic!("{results:?}") };
    assert_eq!(result["ruleId"], "consecutive-perfects");
    assert_eq!((&result["level"], &result["suppressions"]), (&json!("error"), &json!([])));
    let place = &result["locations"][0]["physicalLocation"];
    assert_eq!(place["artifactLocation"]["uri"], "a%20b.bicinium");
    let region = json!({"startLine": 6, "startColumn": 28, "endLine": 6, "endColumn": 30});
    assert_eq!(place["region"], region);
    assert_eq!(result["relatedLocations"][0]["physicalLocation"]["region"]["startLine"], 5);
}

#[test]
fn licences_become_suppressions() {
    let sheet = format!("{OCTAVES}{LICENCE}");
    let log = log(&Folder::with("a.bicinium", sheet), &["--level", "fault"]);
    let suppressions = &log["runs"][0]["results"][0]["suppressions"];
    assert_eq!(suppressions[0]["kind"], "inSource");
    assert_eq!(suppressions[0]["justification"], "the school does");
}

#[test]
fn every_result_speaks_for_a_rule_that_is_listed() {
    let log = full_log();
    let rules = log["runs"][0]["tool"]["driver"]["rules"].as_array().unwrap();
    let ids: Vec<_> = rules.iter().map(|rule| &rule["id"]).collect();
    for result in log["runs"][0]["results"].as_array().unwrap() {
        assert!(ids.contains(&&result["ruleId"]), "{result}");
    }
    for rule in bicinium_analysis::rules::all() {
        let listed = rules.iter().find(|listed| listed["id"] == rule.name).unwrap();
        assert!(!listed["help"]["text"].as_str().unwrap().is_empty());
    }
}

#[test]
fn what_could_not_be_read_is_a_notification() {
    let log = full_log();
    let invocation = &log["runs"][0]["invocations"][0];
    assert_eq!(invocation["executionSuccessful"], false);
    let told = invocation["toolExecutionNotifications"][0]["message"]["text"].as_str().unwrap();
    assert!(told.contains("broken.bicinium cannot be read"), "{told}");
}
