package web

import (
	"cmp"
	"context"
	"fmt"
	"maps"
	"net/url"
	"slices"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/labelmaker"
	"kettlefrost/internal/language"
	"kettlefrost/internal/lots"
)

// labelFields are which label: lot, language, labels and rules.
func (s *server) labelFields(ctx context.Context, book kitchen.Book, form url.Values) []field {
	value := func(key string) string { return tidy(form.Get(key)) }
	packs := field{Key: packKey, Label: "Pack", Hint: "of the book", Value: value(packKey)}
	known := false
	for _, id := range slices.SortedFunc(maps.Keys(book.Packs), func(a, b kitchen.PackID) int { return cmp.Compare(book.Packs[a].Name, book.Packs[b].Name) }) {
		packs.Options = append(packs.Options, option{string(id), book.Packs[id].Name, string(id) == packs.Value})
		known = known || string(id) == packs.Value
	}
	if !known {
		packs.Options = append([]option{{packs.Value, cmp.Or(packs.Value, "choose one"), true}}, packs.Options...)
	}
	lot := field{Key: labelLot, Label: "Lot", Hint: "that was packed; a draft is of none", Value: value(labelLot), Options: []option{{"", "none: a draft", value(labelLot) == ""}}}
	lot.Options = append(lot.Options, s.lotOptions(ctx, value(packKey), value(labelLot))...)
	in := field{Key: labelTongue, Label: "Language", Hint: "names of ingredients stay as the book has them", Value: value(labelTongue), Options: []option{{"", "the kitchen's", value(labelTongue) == ""}}}
	for _, l := range language.Languages() {
		in.Options = append(in.Options, option{string(l), l.Name(), string(l) == in.Value})
	}
	stock := field{Key: labelStock, Label: "Labels in the printer", Hint: "as the kitchen has them, or others", Value: value(labelStock), Options: []option{{"", "the kitchen's", value(labelStock) == ""}}}
	chosen := stock.Value == ""
	for _, x := range labelmaker.Stocks() {
		here := strings.EqualFold(x.Name, stock.Value)
		chosen = chosen || here
		stock.Options = append(stock.Options, option{x.Name, stockWords(x), here})
	}
	if !chosen {
		stock.Options = append(stock.Options, option{stock.Value, stock.Value, true})
	}
	rules := field{Key: labelRules, Label: "Rules", Hint: "of which market", Value: value(labelRules)}
	for _, o := range []option{{"", "the kitchen's", false}, {"us", "United States", false}, {"eu", "European Union", false}} {
		o.Here = o.Value == rules.Value
		rules.Options = append(rules.Options, o)
	}
	return []field{packs, lot, stock, in, rules}
}

func stockWords(s labelmaker.Stock) string {
	if s.Sheet == nil {
		return s.Name + ", roll"
	}
	return fmt.Sprintf("%s, %d to a sheet", s.Name, s.Per())
}

// mostLotOptions is how many lots there are to choose from: the last ones.
const mostLotOptions = 40

func (s *server) lotOptions(ctx context.Context, pack, chosen string) (all []option) {
	if s.records == nil {
		return nil
	}
	var of []*lots.Lot
	err := s.records.Lots(ctx, func(state *lots.State, _ finding.List) error {
		for l := range state.All() {
			if l.Sort == lots.Packs && (l.What == pack || pack == "" && string(l.ID) == chosen) {
				of = append(of, l)
			}
		}
		slices.SortStableFunc(of, func(a, b *lots.Lot) int { return cmp.Compare(b.Born, a.Born) })
		for i, l := range of {
			if here := string(l.ID) == chosen; here || i < mostLotOptions {
				all = append(all, option{string(l.ID), fmt.Sprintf("%s: %s, packed %s, best before %s, %s net", l.ID, times(int(l.Numbers.Count()), "pack", "packs"), s.dateText(l.Born), cmp.Or(string(l.BestBefore), "not told"), l.Label), here})
			}
		}
		return nil
	})
	if err != nil {
		return nil // what is wrong with the records is told where the lot is read
	}
	return all
}
