package nutrition

// GeneralEnergy is kilocalories by the general factors: 4 a gram of protein and of carbohydrate, 9 of fat, 7 of alcohol. They go on actual
// amounts, never on those of a panel.
func (a Amounts) GeneralEnergy() Amount {
	return exactly(0).plus(kcalPerProtein, a[Protein]).plus(kcalPerCarbohydrate, a[Carbohydrate]).plus(kcalPerFat, a[Fat]).plus(kcalPerAlcohol, a[Alcohol])
}

// EnergyWays is energy reckoned in two ways.
type EnergyWays struct {
	General Amount `json:"general"` // kcal by general factors
	Table   Amount `json:"table"`   // kcal by the figures of the compositions: of a food table mostly by factors of each food
	// OffKcal is how much the general factors are over the table, and OffShare that as a share of the table's; both 0 unless Known.
	OffKcal  float64 `json:"off_kcal"`
	OffShare float64 `json:"off_share"`
	Known    bool    `json:"known"` // both are whole
}

// EnergyWays compares the two. Either may be declared; they differ, widely for vegetables, spices and cocoa.
func (a Amounts) EnergyWays() EnergyWays {
	w := EnergyWays{General: a.GeneralEnergy(), Table: a[Energy]}
	general, one := w.General.Get()
	table, other := w.Table.Get()
	if w.Known = one && other; w.Known {
		w.OffKcal = general - table
		if table > 0 {
			w.OffShare = w.OffKcal / table
		}
	}
	return w
}

// EnergyFromFat is kilocalories of fat at 9 a gram: the panel of 9 CFR 317.309 declares them (line "calories_from_fat").
func (a Amounts) EnergyFromFat() Amount { return exactly(0).plus(kcalPerFat, a[Fat]) }
