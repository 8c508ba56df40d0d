package sheet

// Limits that keep a strange file from taking all memory. Far above any rider's sheet.
const (
	MaxBytes     = 64 << 20 // of a file
	MaxRows      = 20_000
	MaxCellBytes = 1 << 20
	MaxColumns   = 400
)
