package answer

// Fits is the answer of `fits`: what goes on a bike, what goes with it, what does not go and why.
type Fits struct {
	Head
	Bike     string      `json:"bike"`
	Asked    *string     `json:"asked" says:"the part that was asked about; null where all parts of the sheets were"`
	Counts   Counts      `json:"counts" says:"parts by the best verdict among their places"`
	Parts    []FitPart   `json:"parts" says:"one entry per part and place, in the order of slots.csv"`
	Measure  []ToMeasure `json:"measure" says:"facts that a verdict waits for, each once"`
	Cautions []Caution   `json:"cautions"`
	Tail
}

// Counts is how many parts there are of each verdict.
type Counts struct {
	Fits         int `json:"fits"`
	FitsWith     int `json:"fits_with"`
	BothSides    int `json:"both_sides"`
	MeasureFirst int `json:"measure_first"`
	DoesNotFit   int `json:"does_not_fit"`
}

// FitPart is one part in one place of the bike.
type FitPart struct {
	Part        string     `json:"part"`
	ID          string     `json:"id" says:"its short name in the sheets"`
	Where       string     `json:"where" says:"sheet:line of the part"`
	Price       Money      `json:"price" says:"as listed"`
	Cost        *Money     `json:"cost" says:"by itself, with its work, small parts and shipping; null where that was not worked out"`
	Slots       []string   `json:"slots" says:"the place: slots that the part fills together"`
	Verdict     string     `json:"verdict" enum:"fits,fits_with,both_sides,measure_first,does_not_fit"`
	Reason      string     `json:"reason" says:"the shortest true reason, as a sentence"`
	Because     []string   `json:"because" says:"what is wrong with the part alone on the bike as it stands"`
	Alone       []FitCheck `json:"alone" says:"the rules that the part breaks on the bike as it stands, before anything goes with it"`
	Checks      []FitCheck `json:"checks" says:"every fit rule that looks at the part in this place, with what goes with it"`
	Company     []Company  `json:"company" says:"what goes with it; the costs add up to company_cost"`
	CompanyCost Money      `json:"company_cost"`
	Refused     *string    `json:"refused" says:"why nobody would fit it; else null"`
	Lacks       *string    `json:"lacks" says:"fact that the part's row must state, for people get hurt where it is wrong; else null"`
	Opinions    []string   `json:"opinions" says:"what practice disagrees on, both sides in a sentence"`
	Allow       []string   `json:"allow" says:"rules on which practice disagrees; --allow NAME takes one side"`
	Then        *FitThen   `json:"then" says:"the verdict once the rules in allow are allowed; null where there are none"`
	Cautions    []Caution  `json:"cautions"`
	Measure     []string   `json:"measure" says:"slot.fact, what must be measured or asked first"`
}

// FitThen is what a part comes to once the rider takes one side where practice disagrees.
type FitThen struct {
	Verdict     string    `json:"verdict" enum:"fits,fits_with,both_sides,measure_first,does_not_fit"`
	Company     []Company `json:"company"`
	CompanyCost Money     `json:"company_cost"`
}

// FitCheck is one fit rule on the bike with the part on it.
type FitCheck struct {
	Rule      string  `json:"rule"`
	Result    string  `json:"result" enum:"met,bridged,unknown,allowed,failed"`
	Severity  string  `json:"severity" enum:"danger,rule,both-sides,caution" says:"danger and rule forbid; both-sides: practice disagrees; caution is only said"`
	Relation  string  `json:"relation" enum:"same,at_most,at_least,pair_in"`
	Margin    *string `json:"margin" says:"how far beyond is still met; null where nothing is"`
	Left      FitSide `json:"left"`
	Right     FitSide `json:"right"`
	Source    string  `json:"source"`
	URL       *string `json:"url"`
	BridgedBy *string `json:"bridged_by" says:"the piece that joins the two sides; else null"`
	Sentence  *string `json:"sentence" says:"what is wrong or not known; null where the rule is met"`
	MendedBy  *string `json:"mended_by" says:"what could mend it; null where nothing has to be mended"`
}

// FitSide is one side of a fit rule: one fact, or a sum of several.
type FitSide struct {
	Slot     *string   `json:"slot" says:"null for a sum or a constant"`
	Fact     *string   `json:"fact" says:"null for a sum or a constant"`
	Value    *string   `json:"value" says:"null where it is not known"`
	Origin   *string   `json:"origin" enum:"measured,sheet,remembered,assumed,unknown" says:"sheet: the part's own row; of a sum the least sure one; null for a constant"`
	Where    *string   `json:"where" says:"sheet:line (cell); kind or like where it is only typical"`
	Terms    []FitTerm `json:"terms" says:"the facts of the side"`
	Constant *string   `json:"constant" says:"what a sum adds to its facts; null where it adds nothing"`
}

// FitTerm is one fact that a fit rule reads.
type FitTerm struct {
	Slot   string  `json:"slot"`
	Fact   string  `json:"fact"`
	Thing  string  `json:"thing" says:"what stands in the slot"`
	Factor string  `json:"factor" says:"times which it counts in the sum; 1 for a fact alone"`
	Value  *string `json:"value" says:"null where it is not known"`
	Origin string  `json:"origin" enum:"measured,sheet,remembered,assumed,unknown"`
	Where  *string `json:"where" says:"sheet:line (cell)"`
	Like   *string `json:"like" says:"of a typical value, the kind or typical bike that it was taken from; else null"`
}

// Company is one thing that goes with a part.
type Company struct {
	Kind     string   `json:"kind" enum:"part,take_off,work"`
	Part     string   `json:"part" says:"the part, what comes off, or the work that is done"`
	Where    string   `json:"where" says:"sheet:line"`
	Slots    []string `json:"slots"`
	Replaces []string `json:"replaces"`
	Count    int      `json:"count"`
	Cost     Money    `json:"cost" says:"all that it adds to the bill: price, tools, work, shipping"`
}

// ToMeasure is a fact that something waits for and that nobody measured.
type ToMeasure struct {
	Bike      string   `json:"bike"`
	Slot      string   `json:"slot"`
	Fact      string   `json:"fact"`
	Says      string   `json:"says" says:"the fact in plain words"`
	Kind      string   `json:"kind" enum:"number,choice,yes/no"`
	Unit      *string  `json:"unit"`
	Choices   []string `json:"choices" says:"the answers that a choice has"`
	OnOffer   bool     `json:"on_offer" says:"a fact of a part on offer: ask the seller, and write it into the part's row"`
	Part      *string  `json:"part" says:"the part on offer; null for the bike"`
	ID        *string  `json:"id" says:"short name of that part in the sheets"`
	Found     *string  `json:"found" says:"what is said of it now; null where nothing is"`
	Origin    string   `json:"origin" enum:"unknown,assumed,remembered"`
	Where     *string  `json:"where" says:"sheet:line (cell)"`
	NeededFor []string `json:"needed_for" says:"parts that wait for it"`
	How       *string  `json:"how"`
	Tool      *string  `json:"tool"`
	Mistakes  []string `json:"mistakes"`
	Stake     *Stake   `json:"stake" says:"what a measurement is worth; null where that was not worked out"`
}
