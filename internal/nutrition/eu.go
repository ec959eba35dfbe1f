package nutrition

import (
	_ "embed"
	"slices"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/sourced"
	"kettlefrost/internal/unit"
)

var (
	//go:embed data/eu_rounding.csv
	euRoundingData string
	//go:embed data/eu_factors.csv
	euFactorData string
	//go:embed data/eu_intakes.csv
	euIntakeData string
)

var euRoundings = byLine(sourced.MustRead(euRoundingData, readRounding))

// AllowedEU is everything that the guidance on tolerances lets stand for an amount per 100 g on a line ("energy_kj", "nutrients", "fatty_acids",
// "salt", "calcium"), the usual first. The band is that of the amount before rounding; one that rounds up to the next band is written as there.
func AllowedEU(line string, amount float64) []Print { return euRoundings.allowed(line, amount) }

// EUFactor is the energy of a gram of something.
type EUFactor struct {
	Component        string
	KJPerG, KcalPerG float64
	Source, Confirm  string
}

var euFactors = sourced.MustRead(euFactorData, func(row sourced.Row) (f EUFactor, err error) {
	f = EUFactor{Component: row["component"], Source: row["source"], Confirm: row["confirm"]}
	if f.KJPerG, err = number(row["kj_per_g"]); err != nil {
		return f, err
	}
	f.KcalPerG, err = number(row["kcal_per_g"])
	return f, err
})

// EUFactors are those of annex XIV.
func EUFactors() []EUFactor { return slices.Clone(euFactors) }

// euIntake is what a day has of a nutrient: the reference intake of an adult, or the reference value of a vitamin or mineral.
type euIntake struct {
	line            string
	amount          float64
	source, confirm string
}

var euIntakes = sourced.MustRead(euIntakeData, func(row sourced.Row) (r euIntake, err error) {
	r = euIntake{line: row["line"], source: row["source"], confirm: row["confirm"]}
	r.amount, err = number(row["amount"])
	return r, err
})

func intakeOf(line string) (euIntake, bool) {
	i := slices.IndexFunc(euIntakes, func(r euIntake) bool { return r.line == line })
	if i < 0 {
		return euIntake{}, false
	}
	return euIntakes[i], true
}

// EUAmounts are amounts as Regulation (EU) 1169/2011 defines them: carbohydrate without fibre, salt for sodium.
type EUAmounts struct {
	KJ, Kcal Amount
	Carb     Amount // g, polyols included
	SaltG    Amount // sodium times 2.5
	Amounts         // the rest, as they are
	// Assumed is what was supposed for the energy: polyols that nobody states are reckoned as other carbohydrate, which is at most too much.
	Assumed []string
}

// EU are amounts by the definitions of the Union. Organic acids are not in a composition here: they are in its carbohydrate by difference.
func (a Amounts) EU() EUAmounts {
	e := EUAmounts{Amounts: a, Carb: a[Carbohydrate].minus(1, a[Fibre]), SaltG: a[Sodium].times(2.5 / 1000)}
	polyols := a[SugarAlcohol]
	if len(polyols.Missing) > 0 {
		e.Assumed = append(e.Assumed, "polyols that are not stated are reckoned as carbohydrate")
		polyols = exactly(polyols.Least)
	}
	energy := func(of func(EUFactor) float64) Amount {
		f := map[string]float64{}
		for _, x := range euFactors {
			f[x.Component] = of(x)
		}
		return exactly(0).plus(f["protein"], a[Protein]).plus(f["fat"], a[Fat]).plus(f["alcohol"], a[Alcohol]).
			plus(f["carbohydrate"], a[Carbohydrate]).minus(f["carbohydrate"]-f["fibre"], a[Fibre]).minus(f["carbohydrate"]-f["polyols"], polyols)
	}
	e.KJ, e.Kcal = energy(func(f EUFactor) float64 { return f.KJPerG }), energy(func(f EUFactor) float64 { return f.KcalPerG })
	return e
}

// minus takes k times another amount off; what is not known of it makes the least less and leaves the most.
func (a Amount) minus(k float64, b Amount) Amount {
	most, bounded := b.Most.Get()
	c := a.plus(0, b)
	if c.Least = 0; bounded {
		c.Least = max(0, a.Least-k*most)
	}
	c.Most = foodtable.Value{}
	if m, given := a.Most.Get(); given {
		c.Most = foodtable.Given(max(0, m-k*b.Least))
	}
	return c
}

// EUAsked is what a declaration is made of.
type EUAsked struct {
	Food      Food
	Portion   unit.Mass // 0: per 100 g alone
	Portions  int       // in the pack
	Intakes   bool      // per cent of the reference intakes too
	Voluntary []Nutrient
	// SaltIsNatural: the salt is exclusively due to sodium that occurs naturally, and the label says so.
	SaltIsNatural bool
}

// EUDeclaration is a nutrition declaration as a value: its rows in the order of annex XV.
type EUDeclaration struct {
	Headings   []string `json:"headings"`
	Rows       []Row    `json:"rows"` // the first is energy
	Statements []string `json:"statements,omitempty"`
	Assumed    []string `json:"assumed,omitempty"`
	Open       []Open   `json:"open,omitempty"`
	Confirm    []string `json:"confirm,omitempty"`
}

// Printable says whether every line is known well enough to be printed.
func (d EUDeclaration) Printable() bool { return len(d.Open) == 0 }
