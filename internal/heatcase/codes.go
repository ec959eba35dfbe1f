package heatcase

// The codes of what a case or its answer finds. They are stable, for programs.
const (
	CodeCase        = "heat-case"            // the case cannot be answered as it stands; Path is the key
	CodeFile        = "heat-file"            // its file cannot be read; At is the place
	CodeThermometer = "heat-thermometer"     // a prediction, no measurement
	CodeTooSlow     = "heat-chill-too-slow"  // over a published cooling limit at the usual film
	CodeTight       = "heat-chill-tight"     // over it at the low end of the films
	CodeNotShown    = "heat-rule-not-shown"  // the target does not show the limit
	CodeNever       = "heat-never"           // the core does not get there
	CodeHolds       = "heat-medium-holds"    // the medium is taken to hold its temperature
	CodeUnstirred   = "heat-unstirred"       // a thick body that nobody stirs
	CodeStirring    = "heat-stirring"        // a pot that must be stirred all the time
	CodeOpen        = "heat-open"            // evaporation is counted, or left out
	CodeFreezesAt   = "heat-freezing-point"  // it is assumed
	CodeSum         = "heat-composition-sum" // a composition was scaled to 100 %
	CodeOtherFoods  = "heat-other-foods"     // more foods fit the words
	CodeAirTarget   = "heat-air-target"      // the usual target is out of the medium's reach
	CodeSkin        = "heat-surface-freezes" // the surface freezes while the core cools
	CodeThawWarm    = "heat-thaw-warm"       // thawing in something warmer than 41 °F
	CodeReheat      = "heat-reheat"          // what the code asks of reheating
	CodeSlowReheat  = "heat-reheat-slow"     // longer on the way than the code allows
	CodeEnergyOpen  = "heat-energy-open"     // the energy balance of the simulation closes badly
	CodeBeyondFit   = "heat-beyond-the-fit"  // colder than the properties were fitted
)
