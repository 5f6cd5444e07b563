//! The job record as a file: a line each with what was recorded and what was stated.

/// Name of the line, what was recorded, what was stated.
pub type Line = [String; 3];

/// Heads of the three, the same in every language, so that a program can read the file.
const HEADS: [&str; 3] = ["line", "recorded", "stated"];

/// As comma-separated values after RFC 4180.
pub fn csv(lines: &[Line]) -> String {
    let mut text = HEADS.join(",") + "\n";
    for line in lines {
        let cells = line.each_ref().map(|c| cell(c));
        text.extend([&cells.join(","), "\n"]);
    }
    text
}

/// A cell of comma-separated values. What a spreadsheet would take for a formula gets an apostrophe, and so is text (OWASP, "CSV
/// Injection"); a number stays one.
pub fn cell(text: &str) -> String {
    let sign = ['=', '+', '-', '@', '\t', '\r'];
    let number = || text.parse::<f64>().is_ok_and(f64::is_finite);
    let mark = if text.starts_with(sign) && !number() {
        "'"
    } else {
        ""
    };
    format!("\"{mark}{}\"", text.replace('"', "\"\""))
}

/// As JSON: an array of objects.
pub fn json(lines: &[Line]) -> String {
    let objects = lines.iter().map(|line| {
        let pairs = HEADS.into_iter().zip(line);
        pairs
            .map(|(head, text)| (head.to_owned(), text.clone().into()))
            .collect::<serde_json::Map<_, _>>()
    });
    objects.collect::<serde_json::Value>().to_string()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quotes_and_commas_come_back() {
        let line = ["Leak, \"low\" port", "1", ""].map(str::to_owned);
        let file = csv(std::slice::from_ref(&line));
        assert_eq!(
            file,
            "line,recorded,stated\n\"Leak, \"\"low\"\" port\",\"1\",\"\"\n"
        );
        let read: serde_json::Value = serde_json::from_str(&json(&[line])).expect("JSON");
        assert_eq!(read[0]["line"], "Leak, \"low\" port");
        assert_eq!(read[0]["recorded"], "1");
    }

    /// The characters are those of OWASP's page on the matter.
    #[test]
    fn no_cell_is_a_formula() {
        for text in [
            "=1+1", "+1+1", "-1+1", "@SUM(A1)", "\t=1", "\r=1", "-inf", "-", "=\"a\"",
        ] {
            assert!(cell(text).starts_with("\"'"), "{text}");
            assert!(
                csv(&[[text.to_owned(), String::new(), String::new()]]).contains("\"'"),
                "{text}"
            );
        }
        for text in ["-1.5", "+2", "-1e3", "0", "a=1", "", "36 oz"] {
            assert_eq!(cell(text), format!("\"{text}\""));
        }
    }
}
