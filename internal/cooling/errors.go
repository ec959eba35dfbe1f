package cooling

import "errors"

var (
	errNoWay    = errors.New("nothing says how it is cooled")
	errIceFirst = errors.New("ice is held back from the recipe before anything else is done, so adding it is the first stage")
)
