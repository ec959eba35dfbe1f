package conduction

// Pool is surroundings of one temperature that the bodies in it warm or cool: the water of a pot, the air and walls of a freezer.
type Pool struct {
	StartC         float64
	HeatCapacityJK float64 // of the water, or of the air and shelves; above 0
	IceKg          float64 // floating ice: what cools it at 0 °C until it has melted; then its water counts too. It comes on top of the water
	// A thermostat: a machine that takes out (Cools) or a burner that gives at most PowerW to hold SetC, in proportion over the last
	// tenth of a kelvin.
	SetC     float64
	PowerW   float64
	Cools    bool
	LossWK   float64 // through walls and surface
	AmbientC float64
}

// Batch is a number of equal bodies that come into a pool together. Faces without a Course meet the pool.
type Batch struct {
	Body  Body
	Count float64 // bodies; for a slab alone, m² of face
	InS   float64 // when they come in
}

// PoolPoint is one moment of a pool.
type PoolPoint struct {
	TimeS, TempC, PowerW, IceKg float64
}

// PoolResult is a simulation of a pool and all that is in it. A batch's times count from when it came in.
type PoolResult struct {
	Batches []Result
	Points  []PoolPoint
	Closure float64 // of the whole energy balance
}
