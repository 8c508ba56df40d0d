package answer

// Profile is the version of the Data Package standard that `schema` follows.
const Profile = "https://datapackage.org/profiles/2.1/datapackage.json"

// Schemas is the answer of `schema`: the sheets' columns. As JSON it is at the same time a Data Package descriptor with
// a Table Schema for each sheet.
type Schemas struct {
	Head
	Profile   string     `json:"$schema" const:"https://datapackage.org/profiles/2.1/datapackage.json"`
	Name      string     `json:"name"`
	Resources []Resource `json:"resources"`
	Settings  []Field    `json:"settings" says:"the settings that rider.csv may have, one a row"`
	Known     []Named    `json:"known" says:"what the embedded table of the one sheet asked for knows by name"`
	Tail
}

// Named is one thing that a table knows by name: a kind, a slot, a fact, a typical bike.
type Named struct {
	Name string `json:"name"`
	Says string `json:"says" says:"what it is, where it goes, what is taken for granted of it"`
}

// Resource is one sheet.
type Resource struct {
	Name   string      `json:"name"`
	Path   string      `json:"path"`
	Title  string      `json:"title" says:"what one row is"`
	Schema TableSchema `json:"schema"`
}

// TableSchema describes the columns of one sheet.
type TableSchema struct {
	Fields        []Field  `json:"fields"`
	FieldsMatch   string   `json:"fieldsMatch" const:"partial" says:"columns may be missing, and others may stand beside them"`
	MissingValues []string `json:"missingValues"`
}

// Field is one column.
type Field struct {
	Name        string      `json:"name"`
	Title       string      `json:"title"`
	Type        string      `json:"type" enum:"string,number,integer,boolean"`
	Description string      `json:"description"`
	Example     string      `json:"example,omitempty"`
	Unit        string      `json:"unit,omitempty" says:"unit of a bare number"`
	Aliases     []string    `json:"aliases" says:"further names that are understood"`
	BareNumber  *bool       `json:"bareNumber,omitempty" says:"false: a currency sign or unit may stand in the cell"`
	TrueValues  []string    `json:"trueValues,omitempty"`
	FalseValues []string    `json:"falseValues,omitempty"`
	Constraints Constraints `json:"constraints"`
}

// Constraints restrict a column's cells.
type Constraints struct {
	Required bool     `json:"required"`
	Enum     []string `json:"enum,omitempty"`
}
