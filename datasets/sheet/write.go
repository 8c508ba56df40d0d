package sheet

import (
	"encoding/csv"
	"io"
	"strings"
)

// Writer writes rows as a spreadsheet reads them: in the given separator and decimal style, numbers plain, and text
// that a spreadsheet would run as a formula with an apostrophe in front (OWASP, "CSV Injection"; CWE-1236).
type Writer struct {
	out     *csv.Writer
	decimal Decimal
	row     []string
	started bool
}

// NewWriter writes in the dialect's separator and decimal sign; a comma and a point where it does not say. Lines end in LF.
func NewWriter(w io.Writer, d Dialect) *Writer {
	out := csv.NewWriter(w)
	if d.Separator != 0 {
		out.Comma = rune(d.Separator)
	}
	return &Writer{out: out, decimal: d.Decimal}
}

// Text adds a cell of text.
func (w *Writer) Text(text string) *Writer {
	if text != "" && isFormulaStart(text[0]) {
		text = "'" + text
	}
	if !w.started && strings.HasPrefix(text, "ID") {
		// A file that begins with ID is taken for another format (SYLK) by spreadsheets.
		text = "id" + text[len("ID"):]
	}
	w.row, w.started = append(w.row, text), true
	return w
}

// Number adds a cell that holds a number in plain digits with a point: "-12.50". It is written in the decimal style
// of the file and never gets an apostrophe, so that it stays a number.
func (w *Writer) Number(plain string) *Writer {
	if w.decimal == Comma {
		plain = strings.Replace(plain, ".", ",", 1)
	}
	w.row, w.started = append(w.row, plain), true
	return w
}

// Row ends the row.
func (w *Writer) Row() error {
	err := w.out.Write(w.row)
	w.row = w.row[:0]
	return err
}

// Close writes what is left and says whether everything was written.
func (w *Writer) Close() error {
	w.out.Flush()
	return w.out.Error()
}
