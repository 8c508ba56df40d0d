package answer

// Plan is the answer of `plan`: the best set to buy for one budget, and whether to stay with the bike at all.
type Plan struct {
	Head
	Budget              *Money     `json:"budget" says:"most that may be spent; null under --repair"`
	Priorities          Priorities `json:"priorities"`
	Decision            string     `json:"decision" enum:"stay,switch,wait,mend"`
	Sentence            string     `json:"sentence" says:"the decision in one sentence"`
	Bike                string     `json:"bike" says:"the bike that the plan is for"`
	MadeFor             *MadeFor   `json:"made_for" says:"the kept bike is not known to be made for the riding; null where it is, or where another bike is bought"`
	Before              []Before   `json:"before_you_spend" says:"what costs nothing, and what is unsafe"`
	Buy                 []Step     `json:"buy" says:"in buying order; costs and benefits add up to the totals"`
	OrderNow            Order      `json:"order_now"`
	OrderAfterMeasuring Order      `json:"order_after_measuring"`
	Receipt             []Line     `json:"receipt" says:"line by line; the lines add up to cost.total"`
	Cost                Cost       `json:"cost"`
	Left                *Money     `json:"left" says:"budget less cost"`
	Rest                *More      `json:"rest" says:"what the money left would bring; null where it brings nothing"`
	Next                *More      `json:"next" says:"the next useful step above the budget; null where there is none"`
	Benefit             *Benefit   `json:"benefit" says:"null where no bike is within reach"`
	Rivals              []Rival    `json:"rivals" says:"every other complete bike at the same budget, best first"`
	Switch              *Switch    `json:"switch" says:"from which budget another bike is better; null where none is"`
	SwitchSearched      bool       `json:"switch_searched" says:"false where the time did not reach to look for a switch"`
	Mend                *Mend      `json:"mend" says:"least money to a safe bike, where the budget does not reach it; else null"`
	Measure             []Measure  `json:"measure" says:"what to measure before ordering"`
	Cautions            []Caution  `json:"cautions"`
	Near                []Near     `json:"near" says:"parts just outside the plan"`
	NotScored           []SetAside `json:"not_scored" says:"parts that no measure counts"`
	SayMore             []Lacking  `json:"say_more" says:"parts that wait for a cell in the sheets before they can be planned with"`
	NotOffered          []SetAside `json:"not_offered" says:"parts that cannot go on this bike whatever else is bought"`
	Tail
}

// Priorities are what the rider cares about.
type Priorities struct {
	Origin  string       `json:"origin" says:"sheet:line (cell), a flag, or default"`
	Stated  *string      `json:"stated" says:"as typed; null where nobody said anything"`
	Weights Keyed[Share] `json:"weights" says:"share of each criterion, adding up to 1"`
}

// MadeFor compares what a bike is made for with what it is ridden for.
type MadeFor struct {
	Class     int        `json:"class" says:"use class of the frame, 1 to 5 (ASTM F2043)"`
	Known     bool       `json:"known" says:"false: nobody read the label, and the class is taken for it"`
	Riding    int        `json:"riding" says:"use class of the riding"`
	Says      string     `json:"says" says:"the same in sentences"`
	Elsewhere *Elsewhere `json:"elsewhere" says:"the least money for a bike made for the riding; null where none on the sheets is known to be"`
}

// Elsewhere is another bike and what it costs.
type Elsewhere struct {
	Bike string `json:"bike"`
	Cost Money  `json:"cost" says:"price, delivery, assembly, repairs, less what the kept bike brings"`
}

// Before is something to do before spending.
type Before struct {
	Code      string  `json:"code"`
	Kind      string  `json:"kind" enum:"free,unsafe" says:"free: costs nothing; unsafe: must not be ridden"`
	Text      string  `json:"text"`
	CheckWith *string `json:"check_with"`
	Where     *string `json:"where" says:"sheet:line (cell) of what is unsafe"`
}

// Step is one step of the buying order: a part with everything that must come with it.
type Step struct {
	Step           int           `json:"step"`
	Kind           string        `json:"kind" enum:"part,work" says:"work: something is restored or taken off and no part is bought"`
	Part           string        `json:"part" says:"name of the part, or of the work where no part is bought"`
	Where          string        `json:"where" says:"sheet:line of the part"`
	Count          int           `json:"count"`
	Slots          []string      `json:"slots" says:"where it goes"`
	Replaces       []string      `json:"replaces" says:"what comes off"`
	Condition      *string       `json:"condition" enum:"new,used"`
	Owned          bool          `json:"owned" says:"lies in the shed already"`
	Shop           *string       `json:"shop"`
	Price          Money         `json:"price" says:"of the part alone, as listed"`
	With           []With        `json:"with" says:"what goes with it"`
	Tax            Money         `json:"tax" says:"tax on top of the listed prices of this step"`
	ShippingChange Money         `json:"shipping_change" says:"what this step adds to the shipping of all before it"`
	Cost           Money         `json:"cost" says:"whole cost of the step"`
	Due            Money         `json:"due" says:"what of the cost was due anyway"`
	Benefit        Points        `json:"benefit" says:"points gained"`
	Points         Keyed[Points] `json:"points" says:"points gained by criterion"`
	Per100         *Rate         `json:"per_100" says:"points gained for 100 of money, less what was due anyway; null where it is free"`
	Verdict        string        `json:"verdict" enum:"fits,fits_with,measure_first"`
}

// With is something that goes with a part.
type With struct {
	Kind   string  `json:"kind" enum:"part,tool,small_part,work"`
	Name   string  `json:"name"`
	Count  int     `json:"count"`
	Cost   Money   `json:"cost"`
	Origin string  `json:"origin" says:"sheet:line, the table it was taken from, or assumed"`
	DoneBy *string `json:"done_by" enum:"self,shop" says:"who does the work; null for things"`
}

// Order is one of the two parts of the shopping list.
type Order struct {
	Items []OrderItem `json:"items"`
	Total Money       `json:"total" says:"cost of these steps, with what goes with them"`
}

// OrderItem is one step on the shopping list.
type OrderItem struct {
	Step    int      `json:"step"`
	Part    string   `json:"part"`
	Shop    *string  `json:"shop"`
	Cost    Money    `json:"cost"`
	Measure []string `json:"measure" says:"what must be measured before it is ordered"`
	Instead []string `json:"instead" says:"what to do where the measurement comes out otherwise, in sentences"`
}

// Line is one line of the receipt.
type Line struct {
	Kind  string  `json:"kind" enum:"part,tool,work,small_part,shipping,tax,sale,bike"`
	Name  string  `json:"name"`
	Shop  *string `json:"shop"`
	Count int     `json:"count"`
	Cost  Money   `json:"cost"`
	Where string  `json:"where" says:"sheet:line (cell), or the table it was taken from"`
}

// Cost is the receipt by kind. Total is all of it.
type Cost struct {
	Parts      Money `json:"parts"`
	Tools      Money `json:"tools"`
	Work       Money `json:"work" says:"work done by a shop"`
	SmallParts Money `json:"small_parts"`
	Shipping   Money `json:"shipping"`
	Tax        Money `json:"tax" says:"on top of listed prices"`
	Sales      Money `json:"sales" says:"what selling brings, below 0"`
	Bike       Money `json:"bike" says:"the complete bike, where one is bought"`
	Total      Money `json:"total"`
}

// More is a further step: so much money, so many points.
type More struct {
	Cost    Money  `json:"cost" says:"more money than this plan costs"`
	Benefit Points `json:"benefit" says:"more points than this plan brings"`
}

// Benefit is the bike before and after, out of 100 points for this rider.
type Benefit struct {
	Before      Points       `json:"before"`
	After       Points       `json:"after"`
	Gained      Points       `json:"gained"`
	Unchanged   *Points      `json:"unchanged" says:"a bought bike before any part; null where the bike is kept"`
	ByCriterion Keyed[Level] `json:"by_criterion"`
}

// Level is one criterion before and after.
type Level struct {
	Says   string `json:"says" says:"the criterion in plain words"`
	Weight Share  `json:"weight"`
	Before Points `json:"before" says:"0 to 100"`
	After  Points `json:"after" says:"0 to 100"`
	Points Points `json:"points" says:"points of benefit gained here"`
}

// Rival is another complete bike at the same budget.
type Rival struct {
	Bike       string        `json:"bike"`
	Where      string        `json:"where"`
	BaseCost   Money         `json:"base_cost" says:"price, delivery, assembly, repairs, less what the kept bike brings"`
	Affordable bool          `json:"affordable"`
	Buy        []string      `json:"buy" says:"parts bought with it"`
	Cost       *Money        `json:"cost" says:"with its parts; null where the budget does not reach it"`
	Benefit    *RivalBenefit `json:"benefit"`
}

// RivalBenefit is what a rival reaches.
type RivalBenefit struct {
	After       Points            `json:"after"`
	ByCriterion Keyed[RivalLevel] `json:"by_criterion"`
}

// RivalLevel is one criterion of a rival.
type RivalLevel struct {
	Weight Share  `json:"weight"`
	After  Points `json:"after"`
}

// Switch is the lowest budget at which another bike beats staying.
type Switch struct {
	At            Money    `json:"at"`
	Away          Money    `json:"away" says:"at less budget; 0 or less where it is reached"`
	To            string   `json:"to"`
	Buy           []string `json:"buy" says:"parts bought with it"`
	BenefitStay   *Points  `json:"benefit_stay" says:"best of staying with this money; null where staying has no plan"`
	BenefitSwitch Points   `json:"benefit_switch"`
	Gain          *Points  `json:"gain"`
	Firm          *bool    `json:"firm" says:"holds also where unknown facts go against it; null where that was not worked out"`
	Until         *Money   `json:"until" says:"budget from which staying is better again; null where that was not worked out"`
	Lasting       *Lasting `json:"lasting" says:"from where the lead stays; null where that was not worked out"`
}

// Lasting is the budget from which a lead stays.
type Lasting struct {
	At Money  `json:"at"`
	To string `json:"to"`
}

// Mend says what makes the bike safe, where the budget does not reach it.
type Mend struct {
	Least   *Money   `json:"least" says:"least cash to a safe, rideable bike; null where no part on the sheets makes it safe"`
	Receipt []Line   `json:"receipt" says:"what it is made of"`
	Within  []string `json:"within" says:"other bikes that the budget does reach"`
}

// Measure is a fact that the plan rests on and nobody measured.
type Measure struct {
	Bike      string      `json:"bike"`
	Slot      string      `json:"slot"`
	Fact      string      `json:"fact"`
	OnOffer   bool        `json:"on_offer" says:"a fact of the part to be bought: the seller knows it"`
	Found     *string     `json:"found"`
	Assumed   *string     `json:"assumed" says:"the value that the plan rests on"`
	Share     *Share      `json:"share" says:"share of bikes that have this value, by judgement; null where it is not known"`
	Waits     Money       `json:"waits" says:"cost of the steps that wait for the measurement; 0 where none does"`
	Origin    string      `json:"origin" enum:"unknown,assumed,remembered,measured"`
	Where     *string     `json:"where"`
	NeededFor []string    `json:"needed_for"`
	How       *string     `json:"how"`
	Tool      *string     `json:"tool"`
	Mistakes  []string    `json:"mistakes"`
	Otherwise []Otherwise `json:"otherwise" says:"what to buy instead at other values, the rest of the plan as it is; empty where nothing changes or that was not worked out"`
	Stake     *Stake      `json:"stake" says:"what a measurement is worth; null where that was not worked out"`
}

// Otherwise is what to buy in place of what waits for a measurement, where it comes out at another value.
type Otherwise struct {
	Value string   `json:"value"`
	Buy   []string `json:"buy" says:"parts; empty where none of those on the sheets goes then"`
	More  Money    `json:"more" says:"more money than the plan; below 0: less"`
}

// Stake is what stands on a measurement.
type Stake struct {
	Money       Money     `json:"money" says:"stuck in parts that do not fit, at worst"`
	Benefit     Points    `json:"benefit" says:"points lost, at worst"`
	ChangesPlan bool      `json:"changes_plan"`
	Outcomes    []Outcome `json:"outcomes"`
}

// Outcome is what follows from one value.
type Outcome struct {
	Value       string `json:"value"`
	PlanBenefit Points `json:"plan_benefit"`
	BuyDiffers  bool   `json:"buy_differs"`
}

// Caution is said in every format.
type Caution struct {
	Code      string  `json:"code"`
	Severity  string  `json:"severity" enum:"caution,danger"`
	When      string  `json:"when" enum:"before,work,first-ride"`
	Part      *string `json:"part"`
	Text      string  `json:"text"`
	CheckWith string  `json:"check_with"`
	Source    string  `json:"source"`
}

// Near is a part just outside the plan.
type Near struct {
	Part            string `json:"part"`
	Price           Money  `json:"price"`
	WalkAway        *Money `json:"walk_away" says:"the most it may cost and still belong in the plan"`
	TooDearBy       *Money `json:"too_dear_by"`
	WouldAdd        Points `json:"would_add"`
	ShortOfBudgetBy *Money `json:"short_of_budget_by"`
}

// SetAside is a part that was left out before any reckoning, and why.
type SetAside struct {
	Part  string `json:"part"`
	Where string `json:"where"`
	Why   string `json:"why"`
}

// Lacking is a part that cannot be planned with in some of its places, because the sheets lack a fact that keeps people
// from getting hurt.
type Lacking struct {
	Part   string   `json:"part"`
	Where  string   `json:"where" says:"sheet:line of the part"`
	Slots  []string `json:"slots" says:"the places that it is left out of"`
	Fact   string   `json:"fact" says:"the column to fill in that row"`
	Sheet  string   `json:"sheet"`
	How    *string  `json:"how" says:"how to find it out"`
	Bought bool     `json:"bought" says:"the plan buys it for another place"`
}
