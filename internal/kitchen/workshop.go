package kitchen

import "kettlefrost/internal/unit"

// IngredientRole is what an ingredient does in a pot that is frozen.
type IngredientRole string

// Keeping is for how long a pack is at its best in the freezer. It says nothing of safety.
type Keeping struct {
	Weeks  int    `yaml:"weeks" desc:"from freezing on, for the best-before day"`
	Source string `yaml:"source" desc:"who says so: a trial, packs that were opened, a published table"`
}

// Scale is what something is weighed on.
type Scale struct {
	Division unit.Mass `yaml:"division" desc:"its smallest step, such as 0.1 g"`
	Capacity unit.Mass `yaml:"capacity,omitempty" desc:"what it holds, bowl and all"`
}
