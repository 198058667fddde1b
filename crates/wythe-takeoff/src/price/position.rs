//! Where a field of a CSV record begins in the text: line and column for a finding.

/// Line and column of the start of field `field` of the record that starts at byte `start` on
/// line `line`; both from 1, columns in characters. Fields are split as RFC 4180 has it.
pub(super) fn of_field(text: &str, start: usize, line: u64, field: usize) -> (u64, u64) {
    let (mut line, mut column) = (line, 1);
    let (mut index, mut quoted, mut at_start) = (0, false, true);
    let rest = text.get(start..).unwrap_or("");
    for c in rest.chars() {
        if index == field && at_start && c != ' ' {
            return (line, column);
        }
        match c {
            '"' => quoted = !quoted,
            ',' if !quoted => {
                index += 1;
                at_start = true;
                column += 1;
                continue;
            }
            '\n' if !quoted => break,
            '\n' => {
                line += 1;
                column = 0;
            }
            _ => {}
        }
        at_start &= c == ' ';
        column += 1;
    }
    (line, column)
}

#[cfg(test)]
mod tests {
    use super::of_field;

    #[test]
    fn fields_are_found_past_quotes_and_breaks() {
        let text = "a,\"b, c\nd\", e\nnext,1";
        assert_eq!(of_field(text, 0, 1, 0), (1, 1));
        assert_eq!(of_field(text, 0, 1, 1), (1, 3));
        assert_eq!(of_field(text, 0, 1, 2), (2, 5));
        assert_eq!(of_field(text, 14, 3, 1), (3, 6));
    }
}
