package answer

// Answer is what one command answers.
type Answer interface {
	// Top is the part that every answer starts with.
	Top() *Head
	// End is the part that every answer ends with.
	End() *Tail
}

// Head starts every answer.
type Head struct {
	Schema   string  `json:"schema" says:"name and number of this shape" const:"firstbolt/answer/1"`
	Command  string  `json:"command" says:"what was asked"`
	Version  string  `json:"version" says:"version of firstbolt"`
	Shed     *Shed   `json:"shed" says:"the sheets that were read; null where the command reads none"`
	Currency *string `json:"currency" says:"ISO 4217 code of every amount; null where it is not known"`
}

// Top is the head itself.
func (h *Head) Top() *Head { return h }

// NewHead starts an answer to a command.
func NewHead(command string) Head {
	return Head{Schema: Schema, Command: command, Version: Version}
}

// Shed says whose sheets were read.
type Shed struct {
	Path string `json:"path" says:"folder as typed; demo for the embedded one"`
	Demo bool   `json:"demo" says:"the embedded demo shed, with invented parts and prices"`
}

// Tail ends every answer.
type Tail struct {
	Warnings []Warning `json:"warnings" says:"what was assumed or looks odd; the answer stands on it"`
	Notes    []string  `json:"notes" says:"further sentences"`
	Proof    *Proof    `json:"proof" says:"who proved the answer; null where nothing was to be proved"`
	Error    *Error    `json:"error" says:"why this is not a full answer; null where it is one"`
}

// End is the tail itself.
func (t *Tail) End() *Tail { return t }

// Warning is something that was assumed or that looks odd.
type Warning struct {
	Code  string  `json:"code" says:"short stable name"`
	Where string  `json:"where" says:"sheet:line (cell)"`
	Text  string  `json:"text"`
	Fix   *string `json:"fix" says:"how to mend it"`
}

// Proof says who proved the answer and who confirmed it.
type Proof struct {
	Engine       string   `json:"engine" says:"engine that proved it"`
	Status       string   `json:"status" enum:"optimal,infeasible,stopped"`
	ConfirmedBy  *string  `json:"confirmed_by" says:"second engine that found the same best values; null where none did"`
	Unconfirmed  *string  `json:"unconfirmed" says:"why no second engine confirmed it; null where one did"`
	Disagreement *string  `json:"disagreement" says:"where the engines differ; null where they do not"`
	Gap          *Points  `json:"gap" says:"no plan is better by more than this; null where that is not known"`
	Seconds      *Seconds `json:"seconds,omitempty" says:"time taken, only under -v"`
}

// Seconds is a time taken, in whole milliseconds.
type Seconds int64

// MarshalJSON writes the seconds with at most three decimals.
func (s Seconds) MarshalJSON() ([]byte, error) { return trimmed(int64(s), 3), nil }

// Error says why there is no full answer. Its code decides the exit code.
type Error struct {
	Code       string      `json:"code" enum:"clash,sheets,engine,disagreement,stopped,interrupted"`
	Sentence   string      `json:"sentence"`
	Complaints []Complaint `json:"complaints" says:"every fault of every sheet, or every wish that clashes"`
}

// Complaint is one thing wrong with a sheet.
type Complaint struct {
	Where  string  `json:"where" says:"sheet:line (cell)"`
	Column *string `json:"column"`
	Found  *string `json:"found" says:"the cell's text as typed"`
	Wanted string  `json:"wanted"`
	Fix    *string `json:"fix" says:"how to mend it"`
	Text   string  `json:"text" says:"the whole complaint on one line"`
}

// Failure is the answer when there is nothing else to say: sheets that cannot be used, wishes that clash, an engine
// that failed.
type Failure struct {
	Head
	Tail
}

// The codes of errors.
const (
	Clash        = "clash"        // the rider's wishes cannot all be met
	Sheets       = "sheets"       // a sheet cannot be used
	Engine       = "engine"       // an engine failed
	Disagreement = "disagreement" // engines disagree, under --strict
	Stopped      = "stopped"      // a limit was reached; the best so far is given
	Interrupted  = "interrupted"  // stopped before there was anything to give
)

// Wrong use of the command line (unknown flag, command, part or bike; no budget) never becomes an answer: it is said
// on standard error with this exit code.
const ExitUsage = 2

// Exit is the exit code of an answer.
func Exit(a Answer) int {
	e := a.End().Error
	if e == nil {
		return 0
	}
	switch e.Code {
	case Clash:
		return 1
	case Sheets:
		return 3
	case Stopped:
		return 5
	case Interrupted:
		return 130
	default:
		return 4
	}
}
