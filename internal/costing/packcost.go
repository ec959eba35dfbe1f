package costing

import (
	"slices"

	"kettlefrost/internal/unit"
)

// taken is what comes to each kind of pack with what it takes, pools shared out anew.
func (c *carrier) taken(j Job) ([]Ledger, error) {
	taken := make([]Ledger, len(j.Packs))
	for i, p := range j.Packs {
		all, err := c.collect(p.Takes)
		if err != nil {
			return nil, at("pack "+p.Name, err)
		}
		taken[i] = all
	}
	for _, pool := range j.Pools {
		if err := pool.share(j.Packs, taken); err != nil {
			return nil, err
		}
	}
	return taken, nil
}

// share puts together what the packs of a pool took and shares it out by the pool's rule.
func (p Pool) share(packs []PackRun, taken []Ledger) error {
	var all Ledger
	places := make([]int, len(p.Packs))
	for i, product := range p.Packs {
		places[i] = slices.IndexFunc(packs, func(r PackRun) bool { return r.Name == product.Name })
		if places[i] < 0 {
			return &RangeError{"pool", "no pack is called " + product.Name, "name packs of the job"}
		}
		all = append(all, taken[places[i]]...)
	}
	joint, err := Allocate(all.Total(), p.Rule, p.Packs)
	if err != nil {
		return at("pool", err)
	}
	bases := make([]int64, len(joint.Parts))
	for i, part := range joint.Parts {
		bases[i] = part.Base
	}
	shares, err := all.split("joint cost", bases)
	if err != nil {
		return err
	}
	for i, place := range places {
		taken[place] = shares[i]
	}
	return nil
}

// pack gathers what packs of one kind bear, from what came with what they take.
func (c *carrier) pack(p PackRun, taken Ledger) error {
	if p.Count <= 0 {
		return &RangeError{"packs", "are fewer than 1", "give how many are made, or leave the pack out"}
	}
	if p.Waste < 0 || p.Waste >= unit.Whole {
		return &RangeError{"expected waste", "is negative, or all of the packs", "give 0 % or more and less than 100 %"}
	}
	own, err := c.spend("", p.Name, p.Charges)
	if err != nil {
		return err
	}
	all := append(taken, own...)
	over, err := c.overhead.onPacks(p, all)
	if err != nil {
		return err
	}
	for _, l := range over {
		charge := Ledger{{"", p.Name, l}}
		if err := c.enter(charge); err != nil {
			return err
		}
		all = append(all, charge...)
	}
	cost := PackCost{Name: p.Name, Ledger: all, Count: p.Count, Total: all.Total(), Missing: all.Missing()}
	if err := cost.each(p.Waste); err != nil {
		return err
	}
	c.out.Packs = append(c.out.Packs, cost)
	return nil
}

// each works out what a pack that is not lost must bear, total / (count x (1 - waste)), and what that is made of.
func (c *PackCost) each(waste unit.Share) error {
	per, err := over([]int64{int64(c.Total), int64(unit.Whole)}, []int64{int64(c.Count), int64(unit.Whole - waste)}).whole("cost of a pack", up)
	if err != nil {
		return err
	}
	c.PerPack = unit.Money(per)
	kinds := GroupBy(c.Ledger, KindOf)
	parts := make([]int64, len(kinds))
	for i, k := range kinds {
		parts[i] = int64(k.Total)
	}
	if c.Total == 0 {
		c.Each = kinds
		return nil
	}
	lost, err := c.PerPack.Split(int64(unit.Whole-waste), int64(waste))
	if err != nil {
		return &RangeError{"expected waste", err.Error(), "check the share"}
	}
	made, err := lost[0].Split(parts...)
	if err != nil {
		return &RangeError{"cost of a pack", err.Error(), "check what trim is worth: it is more than the food costs"}
	}
	for i, k := range kinds {
		c.Each = append(c.Each, Group[Kind]{k.Key, made[i]})
	}
	if waste > 0 {
		c.Each = append(c.Each, Group[Kind]{Waste, lost[1]})
	}
	return nil
}
