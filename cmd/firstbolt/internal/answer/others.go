package answer

// Check is the answer of `check` when the sheets can be used. When they cannot, a Failure lists every fault.
type Check struct {
	Head
	Bikes []string `json:"bikes"`
	Parts int      `json:"parts" says:"parts that can be considered"`
	Tail
}

// Program is the answer of `program`: the integer program of one bike in a form that other solvers read.
type Program struct {
	Head
	Bike    string `json:"bike"`
	Budget  *Money `json:"budget"`
	Columns int    `json:"columns"`
	Rows    int    `json:"rows"`
	Form    string `json:"form" enum:"mps,lp"`
	Text    string `json:"text" says:"the program itself"`
	Tail
}

// Versions is the answer of `version`.
type Versions struct {
	Head
	Commit  *string      `json:"commit" says:"of the source it was built from; null where the build does not know"`
	Go      string       `json:"go" says:"version of Go that built it"`
	Engines []EngineInfo `json:"engines" says:"compiled in, the one that leads first"`
	Licence string       `json:"licence"`
	Tail
}

// EngineInfo is one engine that is compiled in.
type EngineInfo struct {
	Name    string `json:"name"`
	Says    string `json:"says" says:"what it is"`
	Licence string `json:"licence"`
}

// Started is the answer of `start`: what was written.
type Started struct {
	Head
	Files []string `json:"files" says:"sheets that were written"`
	Open  []string `json:"open" says:"questions that nobody answered; their cells are empty"`
	Tail
}
