package answer

// Want is the answer of `want`: what a part must have to stand in one place of a bike, with all else as it is.
type Want struct {
	Head
	Bike     string      `json:"bike"`
	Slot     string      `json:"slot"`
	Says     string      `json:"says" says:"what goes there"`
	Required bool        `json:"required" says:"a rideable bike must have something there"`
	Now      *string     `json:"now" says:"what stands there now; null where nothing does or nobody said"`
	Needs    []Need      `json:"needs" says:"what a part there must have; all of it at once"`
	Measure  []ToMeasure `json:"measure" says:"facts of the bike to be measured before anyone can tell"`
	Cautions []Caution   `json:"cautions"`
	Tail
}

// Need is what one fact of the wanted part must be, or a sum of several; or what is to be said of anything there.
type Need struct {
	Fact    *string     `json:"fact" says:"null for a sum, and where the part's mere being there is meant"`
	Sum     []NeedTerm  `json:"sum" says:"facts that count together; empty for one fact"`
	If      []NeedIf    `json:"if" says:"facts that the part must have for the need to concern it"`
	Kind    *string     `json:"kind" enum:"number,choice,yes/no" says:"of the fact; null for a sum"`
	Does    NeedValues  `json:"does" says:"what does with the bike as it stands"`
	Ways    []NeedWay   `json:"ways" says:"what does besides, and what it takes; the fewest demands first"`
	Verdict *string     `json:"verdict" enum:"fits,fits_with,both_sides,measure_first,does_not_fit" says:"of anything in the place; null for facts"`
	Rules   []NeedCause `json:"rules" says:"the fit rules that ask for it, the gravest first"`
	How     *string     `json:"how" says:"how the fact is found"`
	Tool    *string     `json:"tool"`
	Traps   []string    `json:"traps" says:"what goes wrong typically"`
}

// NeedTerm is one fact of a sum.
type NeedTerm struct {
	Fact   string `json:"fact"`
	Factor string `json:"factor"`
}

// NeedIf is a condition on the wanted part.
type NeedIf struct {
	Fact  string `json:"fact"`
	Value string `json:"value"`
}

// NeedValues are the values that do: one of the choices, or numbers from low to high without the exceptions.
type NeedValues struct {
	Any     bool     `json:"any" says:"every value does"`
	None    bool     `json:"none" says:"no value does"`
	Choices []string `json:"choices"`
	Low     *string  `json:"low" says:"null where nothing plausible is too small"`
	High    *string  `json:"high" says:"null where nothing plausible is too large"`
	Except  []string `json:"except"`
}

// NeedWay is how further values come to do; all that it names must hold.
type NeedWay struct {
	Values  NeedValues  `json:"values"`
	AsNow   bool        `json:"as_now" says:"no worse than what stands there now, so nothing need be measured"`
	Measure []string    `json:"measure" says:"slot.fact of the bike, to be measured first"`
	Pieces  []NeedPiece `json:"pieces" says:"what must join the two sides"`
	Off     []string    `json:"off" says:"slots whose piece must come off"`
	Allow   []string    `json:"allow" says:"rules on which practice disagrees; --allow NAME takes one side"`
}

// NeedPiece is a sleeve, an adapter or a converter.
type NeedPiece struct {
	Slot string  `json:"slot"`
	From *string `json:"from" says:"the side it goes on; null where it is the wanted part's"`
	To   *string `json:"to" says:"the side it gives; null where it is the wanted part's"`
}

// NeedCause is one fit rule behind a need.
type NeedCause struct {
	Rule     string     `json:"rule"`
	Severity string     `json:"severity" enum:"danger,rule,both-sides,caution"`
	Against  []FitTerm  `json:"against" says:"what the rest of the bike has"`
	Does     NeedValues `json:"does"`
	Sentence *string    `json:"sentence" says:"what is wrong with anything in the place; null for facts"`
	MendedBy *string    `json:"mended_by" says:"what could be done where it is not met"`
	Source   string     `json:"source"`
	URL      *string    `json:"url"`
}
