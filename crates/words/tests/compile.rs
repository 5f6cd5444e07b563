//! A string that one language lacks must end the build: the compiler that the build runs, given faulty files.
#[path = "../build/compile.rs"]
mod compile;

use compile::compile;

fn files(text: &str) -> compile::Files {
    vec![("test.ftl".into(), text.into())]
}

fn faults(en: &str, es: &str) -> String {
    compile(&[("en", files(en)), ("es", files(es))])
        .expect_err("this is wrong")
        .join("\n")
}

#[test]
fn sound_files_become_functions() {
    let en = "-gas = R-134a\nshut = Shut\ngiven = { $n } of { -gas } by { $who ->\n    [a] A\n   *[b] B\n }\n    .why = Because\n";
    let es = "shut = Cerrar\ngiven = { $who } { $n }\n    .why = Porque\n";
    let code = compile(&[("en", files(en)), ("es", files(es))]).expect("sound");
    assert!(code.contains("pub fn shut() -> &'static str"));
    assert!(code.contains("pub fn given_why() -> &'static str"));
    assert!(
        code.contains("pub fn given(n: impl core::fmt::Display, who: impl core::fmt::Display)"),
        "the English order, whatever the other language does: {code}"
    );
    assert!(code.contains("of R-134a by"), "terms are filled in: {code}");
}

/// What stands in data is asked for by the rest of its id; other messages are not.
#[test]
fn a_family_is_asked_for_by_the_rest_of_the_id() {
    let en = "fault-air = Air\n    .sign = High\nfaulty = No\n";
    let code = compile(&[("en", files(en)), ("es", files(en))]).expect("sound");
    let lookup = "pub fn fault(id: &str) -> Option<&'static str>";
    let (_, arms) = code.split_once(lookup).expect("a lookup");
    assert!(
        arms.contains("\"air\" => fault_air(), \"air.sign\" => fault_air_sign(), _ => return None")
    );
}

#[test]
fn whatever_one_language_lacks_is_named() {
    assert!(faults("a = A\nb = B\n", "a = A\n").contains("es: the message \"b\" is missing"));
    assert!(faults("a = A\n", "a = A\nb = B\n").contains("en: the message \"b\" is missing"));
    let attribute = faults("a = A\n    .why = B\n", "a = A\n");
    assert!(attribute.contains("\"a.why\" is missing"), "{attribute}");
    let variable = faults("a = { $n } cans\n", "a = latas\n");
    assert!(
        variable.contains("es: \"a\" uses the variables"),
        "{variable}"
    );
}

#[test]
fn what_means_nothing_is_named() {
    assert!(faults("a = { b }\n", "a = A\n").contains("what is not there"));
    assert!(faults("a = { a }\n", "a = A\n").contains("circle"));
    assert!(faults("a = { NUMBER($n) }\n", "a = { $n }\n").contains("calls a function"));
    assert!(faults("a = A\na = B\n", "a = A\n").contains("twice"));
    assert!(faults("a = { \"\" }\n", "a = A\n").contains("empty"));
    let broken = faults("a = A\n= B\n", "a = A\n");
    assert!(broken.contains("test.ftl:2"), "the line is told: {broken}");
}
