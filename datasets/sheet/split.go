package sheet

import "strings"

// field is one cell as it stands in the text.
type field struct {
	text   string
	quoted bool
}

// record is one row as it stands in the text.
type record struct {
	line   int // physical line on which it starts
	fields []field
}

// unclosed is a quote that opens a cell and is never closed.
type unclosed struct{ line, column int }

// maxUnclosed is after how many unclosed quotes splitting gives up: each costs a look ahead of up to MaxCellBytes.
const maxUnclosed = 20

// splitter cuts text into records. It reads what people write: a quote inside an unquoted cell is an inch mark, a
// quote inside a quoted cell closes it only before a separator or a line's end, blanks around quotes do not count, and
// every line end (LF, CRLF, CR) will do.
type splitter struct {
	text      string
	at        int
	line      int
	separator byte
	unclosed  []unclosed
}

func newSplitter(text string, separator byte) *splitter {
	return &splitter{text: text, line: 1, separator: separator}
}

// next is the next record; false at the end of the text.
func (s *splitter) next() (record, bool) {
	if s.at >= len(s.text) || len(s.unclosed) > maxUnclosed {
		return record{}, false
	}
	r := record{line: s.line}
	for {
		r.fields = append(r.fields, s.field(len(r.fields)+1))
		if s.at < len(s.text) && s.text[s.at] == s.separator {
			s.at++
			continue
		}
		s.lineEnd()
		return r, true
	}
}

// lineEnd passes over one line end and counts it.
func (s *splitter) lineEnd() {
	if s.at < len(s.text) {
		s.at += lineEndAt(s.text, s.at)
		s.line++
	}
}

// lineEndAt is the length of the line end at the place: 0, 1, or 2 for CRLF.
func lineEndAt(text string, at int) int {
	switch {
	case at >= len(text):
		return 0
	case text[at] == '\n':
		return 1
	case text[at] == '\r' && at+1 < len(text) && text[at+1] == '\n':
		return 2
	case text[at] == '\r':
		return 1
	default:
		return 0
	}
}

// field reads one cell and stops before the separator, the line end or the end of the text.
func (s *splitter) field(column int) field {
	open := s.skipBlanks(s.at)
	if open < len(s.text) && s.text[open] == '"' {
		if text, end, ok := s.quoted(open + 1); ok {
			s.line += countLineEnds(s.text[s.at:end])
			s.at = end
			return field{text, true}
		}
		s.unclosed = append(s.unclosed, unclosed{s.line, column})
	}
	start := s.at
	for s.at < len(s.text) && s.text[s.at] != s.separator && lineEndAt(s.text, s.at) == 0 {
		s.at++
	}
	return field{s.text[start:s.at], false}
}

// quoted reads from behind the opening quote to behind the closing one and the blanks after it. It fails where the
// quote is never closed: at the end of the text, beyond the limit of a cell, or where a later line opens a quoted
// cell of its own.
func (s *splitter) quoted(start int) (text string, end int, ok bool) {
	var cell strings.Builder
	lines, from := 0, start
	for at := start; at < len(s.text) && at-start <= MaxCellBytes; {
		if n := lineEndAt(s.text, at); n > 0 {
			cell.WriteString(s.text[from:at] + "\n")
			at += n
			from = at
			lines++
			continue
		}
		if s.text[at] != '"' {
			at++
			continue
		}
		if strings.HasPrefix(s.text[at:], `""`) {
			cell.WriteString(s.text[from : at+1])
			at += 2
			from = at
			continue
		}
		if end := s.skipBlanks(at + 1); s.ends(end) {
			cell.WriteString(s.text[from:at])
			return cell.String(), end, true
		}
		if lines > 0 && s.opens(at) {
			return "", 0, false
		}
		at++
	}
	return "", 0, false
}

// opens tells whether the quote stands where a cell begins.
func (s *splitter) opens(at int) bool {
	for at--; at >= 0 && isBlank(s.text[at]) && s.text[at] != s.separator; at-- {
	}
	return at < 0 || s.text[at] == s.separator || s.text[at] == '\n' || s.text[at] == '\r'
}

// ends tells whether a cell ends at the place.
func (s *splitter) ends(at int) bool {
	return at >= len(s.text) || s.text[at] == s.separator || lineEndAt(s.text, at) > 0
}

func (s *splitter) skipBlanks(at int) int {
	for at < len(s.text) && isBlank(s.text[at]) && s.text[at] != s.separator {
		at++
	}
	return at
}

func isBlank(b byte) bool { return b == ' ' || b == '\t' }

func countLineEnds(text string) int {
	n := 0
	for at := 0; at < len(text); at++ {
		if l := lineEndAt(text, at); l > 0 {
			n++
			at += l - 1
		}
	}
	return n
}
