package datasets

// IsSheet tells whether a file of this name in a shed is read as one of its sheets.
func IsSheet(file string) bool {
	_, known := TableNamed(sheetOf(file))
	return known
}
