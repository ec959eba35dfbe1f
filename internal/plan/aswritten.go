package plan

import (
	"context"
	"errors"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/massflow"
)

// ErrNoDish is a dish that the book does not have.
var ErrNoDish = errors.New("the book has no such dish")

// AsWritten is a dish by itself at the scale that it is written for, without packs and without a timetable: it takes about a millisecond. What
// no later step takes is its surplus. The findings are those of its masses. Errors: ErrNoDish, and what keeps it from being solved.
func AsWritten(book kitchen.Book, foods *foodtable.Table, id kitchen.DishID) (Dish, finding.List, error) {
	if _, there := book.Dishes[id]; !there {
		return Dish{}, nil, ErrNoDish
	}
	p := newPlanner(context.Background(), book, foods, kitchen.Request{})
	d, err := p.compile(id)
	if err == nil {
		d.flow, err = massflow.Uniform(d.graph, 1)
	}
	if err != nil {
		return Dish{}, p.out.Findings, errors.New(p.named(d, err))
	}
	p.dishes = append(p.dishes, d)
	p.judgeFlow(d)
	found := p.out.Findings // what is left over here is no finding: packs take it
	p.showDishes()
	found.Sort()
	return p.out.Dishes[0], found, nil
}
