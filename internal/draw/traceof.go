package draw

import (
	"kettlefrost/internal/lots"
	"kettlefrost/internal/unit"
)

var traceSorts = map[lots.Sort]TraceKind{lots.Goods: TraceGoods, lots.Pot: TracePot, lots.Batch: TraceBatch, lots.Packs: TracePacks}

// Whole is how far a drawing of a lot goes when it goes all the way.
const Whole = 1 << 30

// StoryGraph is a lot with what went into it and what came of it, so many steps each way.
func StoryGraph(y lots.Story, steps int, units unit.System) TraceGraph {
	g := TraceGraph{Title: "Where lot " + string(y.Lot) + " came from and where it went", Units: units}
	lot := lots.ReportLot{Lot: y.Lot, Sort: y.Sort, What: y.What, Run: y.Run, Came: y.Balance.Came, Asked: true}
	rows := []lots.ReportLot{lot}
	for _, x := range y.Back {
		x.Steps = -x.Steps
		rows = append(rows, x)
	}
	return g.of(append(rows, y.Forward...), y.Flows, steps)
}

// RecallGraph is what was asked for and everything that contains any of it.
func RecallGraph(r lots.Report, units unit.System) TraceGraph {
	g := TraceGraph{Title: "Where " + r.Asked + " went", Units: units}
	return g.of(r.Lots, r.Flows, Whole)
}

func (g TraceGraph) of(rows []lots.ReportLot, flows []lots.Flow, steps int) TraceGraph {
	at := map[string]int{}
	for _, x := range rows {
		if x.Steps < -steps || x.Steps > steps {
			continue
		}
		at[string(x.Lot)] = len(g.Lots)
		l := TraceLot{ID: string(x.Lot), What: x.What, Kind: traceSorts[x.Sort], Mass: x.Came, Step: x.Steps, Asked: x.Asked}
		if x.Sort == lots.Pot {
			l.ID = "run " + x.Run
		}
		g.Lots = append(g.Lots, l)
	}
	for _, f := range flows {
		from, there := at[string(f.From)]
		to, both := at[string(f.To)]
		if there && both {
			g.Flows = append(g.Flows, TraceFlow{from, to, f.Mass, f.Rework})
		}
	}
	return g
}
