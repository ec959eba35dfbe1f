package people

import (
	"slices"

	"kettlefrost/internal/record"
)

// Role is what somebody is here for.
type Role = record.Role

// Roles are all roles, each with what it is for.
var Roles = []struct {
	Role Role
	Says string
}{
	{record.Owner, "everything: people, prices, invoices, releases, putting right what others entered"},
	{record.Cook, "receiving, production, stock and holds, orders and customers"},
	{record.Packer, "the run board, packing, picking, moving, counting"},
	{record.Inspector, "reads everything, enters nothing"},
}

// rank is how much a role may: each may what those below it may.
func rank(r Role) int {
	return slices.Index([]Role{record.Inspector, record.Packer, record.Cook, record.Owner}, r)
}

// right is what an entry of a kind does, and the least role that may make it.
type right struct {
	does  string // to be read after "may not"
	least Role
	key   bool // a scale or a probe may, by its key
}

// rights is the table of who may enter what. A kind that is not here is for owners.
var rights = map[record.Kind]right{
	"started":       {does: "begin tasks of a run", least: record.Packer},
	"finished":      {does: "finish tasks of a run", least: record.Packer},
	"skipped":       {does: "skip tasks of a run", least: record.Packer},
	"weighed":       {does: "enter weights", least: record.Packer, key: true},
	"measured":      {does: "enter temperatures", least: record.Packer, key: true},
	"check-weighed": {does: "enter check-weights", least: record.Packer, key: true},
	"used":          {does: "say what went into a dish", least: record.Packer},
	"made":          {does: "say what was made", least: record.Packer},
	"wasted":        {does: "say what was thrown away", least: record.Packer},
	"packed":        {does: "enter packs", least: record.Packer},
	"moved":         {does: "move stock", least: record.Packer},
	"counted":       {does: "count stock", least: record.Packer},
	"picked":        {does: "pick orders", least: record.Packer},
	"handed-over":   {does: "hand packs over", least: record.Packer},
	"noted":         {does: "write notes", least: record.Packer},
	"voided":        {does: "take entries back", least: record.Packer},
	"watched":       {does: "say where a probe is", least: record.Packer},
	"acted":         {does: "say what was done about food that is too warm", least: record.Packer},

	"trial-opened": {does: "measure packs of trials", least: record.Packer},
	"trial-scored": {does: "taste packs of trials", least: record.Packer},
	"tasted":       {does: "open packs that were set aside", least: record.Packer},
	"pictured":     {does: "add pictures", least: record.Packer},
	"set-aside":    {does: "set packs aside", least: record.Packer},
	"labelled":     {does: "print labels", least: record.Packer},

	"opened":       {does: "open runs", least: record.Cook},
	"closed":       {does: "close runs", least: record.Cook},
	"changed":      {does: "change the day's plan", least: record.Cook},
	"received":     {does: "receive goods", least: record.Cook},
	"written-off":  {does: "write stock off", least: record.Cook},
	"held":         {does: "hold lots", least: record.Cook},
	"drilled":      {does: "enter recall drills", least: record.Cook},
	"routed":       {does: "plan the way of deliveries", least: record.Cook},
	"returned":     {does: "take packs back from customers", least: record.Cook},
	"customer":     {does: "change customers", least: record.Cook},
	"ordered":      {does: "take orders", least: record.Cook},
	"cancelled":    {does: "cancel orders", least: record.Cook},
	"calibrated":   {does: "enter checks of thermometers", least: record.Cook},
	"logged":       {does: "take in files of loggers", least: record.Cook},
	"hazard-plan":  {does: "change hazard plans", least: record.Cook},
	"signed":       {does: "sign records", least: record.Cook},
	"trial-laid":   {does: "lay out trials", least: record.Cook},
	"trial-made":   {does: "enter batches of trials", least: record.Cook},
	"trial-closed": {does: "end trials", least: record.Cook},
	"learned":      {does: "take over what runs have shown", least: record.Cook},
	"left-out":     {does: "leave runs out of what is learned", least: record.Cook},

	"released":      {does: "decide about what is held", least: record.Owner},
	"plan-reviewed": {does: "enter reviews of hazard plans", least: record.Owner},
	"invoiced":      {does: "write invoices", least: record.Owner},
	"credited":      {does: "write credit notes", least: record.Owner},
	"paid":          {does: "enter payments", least: record.Owner},
	"booked":        {does: "change the book", least: record.Owner},
	"person":        {does: "change who works here", least: record.Owner},
}

func rightTo(k record.Kind) right {
	if r, ok := rights[k]; ok {
		return r
	}
	return right{does: "enter this", least: record.Owner}
}

// MayEnter says whether a role may make entries of a kind.
func MayEnter(r Role, k record.Kind) bool {
	least := rank(rightTo(k).least)
	return rank(r) >= least && least > rank(record.Inspector)
}

// KeyMayEnter says whether a scale or a probe may make entries of a kind.
func KeyMayEnter(k record.Kind) bool { return rightTo(k).key }

// Does is what an entry of a kind does, in words to be read after "may not".
func Does(k record.Kind) string { return rightTo(k).does }

// MayEnterAnything says whether a role may enter anything at all.
func MayEnterAnything(r Role) bool { return rank(r) > rank(record.Inspector) }

// MayManage says whether a role looks after people, devices and keys.
func MayManage(r Role) bool { return MaySee(r, Managing) }

// Area is a part of what there is to see.
type Area string

const (
	Kitchen  Area = "the kitchen"
	Money    Area = "what things cost, are sold for and who owes what"
	Office   Area = "everything at once, to take away"
	Managing Area = "people, devices and keys"
)

// MaySee says whether a role may see an area. An inspector sees all that a cook does.
func MaySee(r Role, a Area) bool {
	switch a {
	case Kitchen:
		return rank(r) >= 0
	case Money, Office:
		return rank(r) >= 0 && r != record.Packer
	}
	return r == record.Owner
}
