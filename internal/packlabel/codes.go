package packlabel

// The codes of what a label finds, besides those of the packages that it is checked by. They are stable, for programs.
const (
	CodeLanguage     = "label-language"              // another language than English
	CodeStock        = "label-stock-asked"           // nobody said which labels are in the printer
	CodeAsWritten    = "label-as-written"            // not by a run
	CodeInstead      = "label-instead"               // what took the place of what
	CodeAllergens    = "allergens-undeclared"        // an allergen that nobody answered
	CodeContradicted = "label-allergen-contradicted" // a name says what the answer does not
	CodeStatement    = "label-statement"             // the ingredients cannot be declared as they are written
	CodeNearTie      = "label-near-tie"              // weighing decides the order
	CodeTwice        = "label-named-twice"           // one name with different parts
	CodeNotSpice     = "label-not-a-spice"           // hidden behind spices or flavoring
	CodeFunction     = "label-function"              // what an additive does is not said
	CodeNested       = "label-nested"                // parts without their shares stay in brackets
	CodeNutrient     = "label-nutrient-open"         // what is missing decides what a line says
	CodeNutrition    = "label-nutrition"             // the panel cannot be made
	CodeAdded        = "label-added-sugars"          // taken from the kind of food
	CodeRendered     = "label-rendered"              // fat has come out, and what it took along is not known
	CodeEnergy       = "label-energy"                // two ways of reckoning it
	CodePanelRules   = "label-panel-rules"           // whose panel it has
	CodeReference    = "label-reference"             // which reference amount
	CodeDensity      = "label-weigh-a-cup"           // the weight of a cup is reckoned, not weighed
	CodeExempt       = "label-exempt"                // the panel is left out
	CodeNet          = "label-net"                   // the net quantity
	CodeIdentity     = "label-identity"              // what the food is
	CodeAgency       = "label-agency"                // meat or poultry: who inspects it
	CodeClass        = "label-class"                 // nobody said what an ingredient is
	CodePoultryName  = "label-poultry-name"          // chicken in the name and little in the pot
	CodeNotCooked    = "label-not-cooked"            // meat that no step cooks through
	CodeFirm         = "label-firm"                  // name and place of business
	CodeBestBefore   = "label-best-before"           // the date
	CodeLot          = "label-lot"                   // its code
	CodeCard         = "label-card"                  // the heating card
	CodeBars         = "label-bar-code"              // bar codes
	CodeTwoLabels    = "label-front-and-back"        // one label does not hold everything
	CodeArea         = "label-area"                  // the size of the pack's face
	CodeCrossContact = "label-cross-contact"         // who was in the pot before
)
