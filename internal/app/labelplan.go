package app

import (
	"context"
	"maps"
	"slices"

	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
)

// planFor is the plan of the run that made a lot, or that makes the pack; the zero plan where there is none.
func (x *Labels) planFor(ctx context.Context, book kitchen.Book, ask LabelAsk, lot lotToLabel) (plan.Plan, string, error) {
	name, day := ask.Run, ""
	if ask.Lot != "" {
		name = ""
		if lot.run != "" && x.boards != nil {
			if r, _, err := x.boards.run(ctx, lot.run); err == nil {
				_, opened, _ := r.Opened()
				name, day = opened.Request, string(opened.Day)
			}
		}
		if _, there := book.Runs[name]; !there {
			name, day = lot.run, string(lot.packed)
		}
	}
	req, there := book.Runs[name]
	switch {
	case !there && ask.Lot == "" && ask.Run != "":
		_, err := Request(book, ask.Run)
		return plan.Plan{}, "", &coldstore.Refusal{Field: "run", Problem: err.Error(), Fix: "choose one of them, or leave it open"}
	case !there && ask.Lot == "":
		name, req, there = firstRun(book, ask.Pack)
	}
	if !there {
		return plan.Plan{}, "", nil
	}
	if day != "" {
		req.Day = day
	}
	p := x.house.Plan(ctx, book, req)
	if !slices.ContainsFunc(p.Labels, func(l plan.Label) bool { return l.Pack == string(ask.Pack) && len(l.Inside.Held) > 0 }) {
		return plan.Plan{}, "", ctx.Err()
	}
	return p, name, ctx.Err()
}

// firstRun is the first run of the book, by name, that makes the dish of a pack.
func firstRun(book kitchen.Book, pack kitchen.PackID) (string, kitchen.Request, bool) {
	for _, name := range slices.Sorted(maps.Keys(book.Runs)) {
		if slices.Contains(book.Runs[name].Dishes(book), book.Packs[pack].Dish) {
			return name, book.Runs[name], true
		}
	}
	return "", kitchen.Request{}, false
}
