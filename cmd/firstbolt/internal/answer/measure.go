package answer

// Measuring is the answer of `measure`: what to measure on a bike and to ask the sellers, as a page to take to the shed;
// and after --read what the filled page said and what is still open.
type Measuring struct {
	Head
	Bike     string    `json:"bike"`
	Measure  []Box     `json:"measure" says:"facts of the bike that parts wait for, in the order of slots.csv"`
	Ask      []Box     `json:"ask" says:"facts of parts on offer, for their sellers, part by part"`
	Sheet    string    `json:"sheet" says:"the questions as rows of measured.csv, to be filled in"`
	Read     *ReadBack `json:"read" says:"what --read took back; null where nothing was read"`
	Cautions []Caution `json:"cautions" says:"the list to look the bike over with"`
	Tail
}

// Box is one question with the line of boxes that --read takes back.
type Box struct {
	ToMeasure
	Line    string `json:"line" says:"the line with the boxes"`
	Section string `json:"section" says:"the line above it that says whose fact it is"`
}

// ReadBack is what a filled page or sheet said.
type ReadBack struct {
	File    string    `json:"file"`
	Written *string   `json:"written" says:"the sheet that was written; null where nothing new was said"`
	Changed []Changed `json:"changed" says:"what is known now"`
	Same    int       `json:"same" says:"answers that stood in measured.csv already"`
}

// Changed is one answer that was written.
type Changed struct {
	Bike   *string `json:"bike" says:"null for a part on offer"`
	Part   *string `json:"part" says:"null for the bike"`
	Slot   *string `json:"slot" says:"null where the fact holds in every place of the part"`
	Fact   string  `json:"fact"`
	Before *string `json:"before" says:"what was said of it before; null where nothing was"`
	Origin string  `json:"origin" enum:"unknown,assumed,remembered,measured" says:"how sure it was before"`
	Stood  *string `json:"stood" says:"sheet:line (cell) of what was said before"`
	After  string  `json:"after"`
	Sure   bool    `json:"sure" says:"false where a question mark stands behind the answer"`
	Where  string  `json:"where" says:"file:line of the answer"`
}
