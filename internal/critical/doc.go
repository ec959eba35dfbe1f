// Package critical says which critical records a lot needs, how each stands, and which lots must be held for it.
//
// What a lot needs follows from the control points of the hazard plan of its pack and from the loads of its run: a cooling log for each load
// that is chilled, a temperature of the coldest spot for each load of a step that is relied on to cook, a signed look at the label of each lot
// of packs, and the temperature at the door of goods that come chilled or frozen. The evidence is what was typed (Measured) and what probes
// read while somebody said that they were in the food (Watched). A record is passed, failed, incomplete or missing; only the first is enough.
//
// The name of a record is a point. It stays the same for good:
//
//	RUN/TASK/cooling          the cooling log of a load: TASK as in the timetable, without the stage (tuesday/soup/simmer-chill/1/cooling)
//	RUN/TASK/cooking.STEP     a load of a step that cooks: TASK is that of the chain of steps (tuesday/soup/sweat/1/cooking.simmer)
//	RUN/LOT/label             the label of a lot of packs
//	RUN/LOT/check.POINT       what people have added to the plan, looked at and signed
//	RUN/LOT/plan              a lot of which nobody can say what its records are: its pack has no plan, or its loads cannot be worked out
//	received/LOT/door         goods at the door
//
// A decision (Released) names points, each with how it stood when it was decided after an equals sign: tuesday/soup/simmer-chill/1/cooling=fail.
// It covers the point as long as that is no worse: what was missing and fails now holds again. Without the sign it covers what is missing or
// incomplete, and no failure.
//
// That packs are kept frozen is a control point of most plans, and no record here: no code names a temperature for it, and the air of a freezer
// is not the food in it. Package coldwatch tells when a freezer was too warm or not read, and which lots somebody has to look at; it holds
// nothing by itself.
package critical
