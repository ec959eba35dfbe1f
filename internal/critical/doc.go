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
//	RUN/LOT/frozen            the freezer that a lot of packs lies in: shown, and never a hold by itself, see frozen.go
//	received/LOT/door         goods at the door
//
// A decision (Released) names points, each with how it stood when it was decided after an equals sign: tuesday/soup/simmer-chill/1/cooling=fail.
// It covers the point as long as that is no worse: what was missing and fails now holds again. Without the sign it covers what is missing or
// incomplete, and no failure.
package critical
