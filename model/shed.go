package model

// Work says who does the bench work where both could.
type Work int

// The zero value is Self: the rider does what their skill and tools allow, the shop the rest.
const (
	Self Work = iota
	ShopWork
)

// Priority is one entry of `priorities`: a criterion and the points the rider gives it.
type Priority struct {
	Criterion string
	Points    float64
}

// Rider is rider.csv, with flags already laid over it.
type Rider struct {
	Riding     Stated[int] // 1..5, ASTM F2043 condition in words
	Mass       Stated[Grams]
	Load       Stated[Grams]
	HeightCM   Stated[float64]
	InseamCM   Stated[float64]
	Budget     Stated[Money]
	PerMonth   Stated[Money]
	Priorities Stated[[]Priority] // as points; at most one of Priorities, Ranking, Profile is used, in this order
	Ranking    Stated[[]string]   // criterion keys, most important first
	Profile    Stated[string]
	Work       Stated[Work]
	Skill      Stated[int] // 1..3
	Hours      Stated[float64]
	MostParts  Stated[int]
	Horizon    Stated[float64] // seasons
	Worth      Stated[float64] // points per 100 of money below which money is kept
	TaxPercent Stated[float64] // on top of prices, where shops.csv does not say
}

// Shop is one row of shops.csv.
type Shop struct {
	Name       string
	Shipping   Money
	FreeOver   Stated[Money]   // listed prices from this sum on ship free; unknown = never
	TaxPercent Stated[float64] // on top of the listed price; 0 or unknown = included
	Origin     Origin
}

// Having says how a tool is to be had. The zero value is Buy.
type Having int

// The ways to come by a tool; all but Buy are free.
const (
	Buy Having = iota
	Have
	Borrow
	Club
)

// ToolOwned is one row of the rider's tools.csv, laid over the embedded table.
type ToolOwned struct {
	Name   string
	Price  Stated[Money]
	Having Having
	Origin Origin
}

// Shed is one rider's whole situation as the sheets say it. Nothing in it is worked out.
type Shed struct {
	Path     string // as the rider typed it; "demo" for the embedded one
	Demo     bool
	Currency Currency
	Rider    Rider
	Bikes    []Bike
	Parts    []Part
	Shops    []Shop
	Tools    []ToolOwned
	Tables   *Tables // embedded tables with the rider's own rows laid over them
}

// OwnBike is the rider's own bike, nil where they own none.
func (s *Shed) OwnBike() *Bike {
	for i := range s.Bikes {
		if s.Bikes[i].Ownership == Own {
			return &s.Bikes[i]
		}
	}
	return nil
}

// ShopNamed finds a shop; nil where there is no such row.
func (s *Shed) ShopNamed(name string) *Shop {
	for i := range s.Shops {
		if s.Shops[i].Name == name {
			return &s.Shops[i]
		}
	}
	return nil
}
