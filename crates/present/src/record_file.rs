//! The job record as a file: a line each with what was recorded and what was stated.

/// Name of the line, what was recorded, what was stated.
pub type Line = [String; 3];

/// Heads of the three, the same in every language, so that a program can read the file.
const HEADS: [&str; 3] = ["line", "recorded", "stated"];

/// As comma-separated values after RFC 4180.
pub fn csv(lines: &[Line]) -> String {
    let mut text = HEADS.join(",") + "\n";
    for line in lines {
        let cells = line
            .each_ref()
            .map(|c| format!("\"{}\"", c.replace('"', "\"\"")));
        text.extend([&cells.join(","), "\n"]);
    }
    text
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
}
