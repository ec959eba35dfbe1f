package cli

import (
	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
)

// Names of the shapes that only the command line has.
const (
	checkSchema   = "kettlefrost.check/1"
	demoSchema    = "kettlefrost.demo/1"
	foodsSchema   = "kettlefrost.foods/1"
	madeSchema    = "kettlefrost.made/1"
	mediaSchema   = "kettlefrost.media/1"
	formSchema    = "kettlefrost.form/1"
	buySchema     = "kettlefrost.buy/1"
	boardsSchema  = "kettlefrost.boards/1"
	peopleSchema  = "kettlefrost.people/1"
	versionSchema = "kettlefrost.version/1"
)

// Demo says where the book of the demo kitchen was written.
type Demo struct {
	Schema string `json:"schema"`
	Book   string `json:"book"`
}

// Shopping is what is to be bought for a run.
type Shopping struct {
	Schema string `json:"schema"`
	plan.Buy
}

// Boards is the productions that were opened.
type Boards struct {
	Schema string  `json:"schema"`
	Runs   []Board `json:"runs"`
}

// Board is one production.
type Board struct {
	Run     string     `json:"run"`
	Request string     `json:"request"` // the run of the book that it was opened from
	Day     record.Day `json:"day"`
	Open    bool       `json:"open"`
}

// People is everybody who is or was here.
type People struct {
	Schema string   `json:"schema"`
	People []Person `json:"people"`
}

// Person is one of them.
type Person struct {
	ID       string      `json:"id"`
	Name     string      `json:"name"`
	Role     record.Role `json:"role"`
	Since    record.Day  `json:"since"`
	Left     record.Day  `json:"left,omitempty"`
	Password bool        `json:"password"` // there is one
	PIN      bool        `json:"pin"`
	Devices  []string    `json:"devices"` // signed in on now
}
