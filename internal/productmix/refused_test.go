package productmix

import (
	"errors"
	"testing"
)

func TestRefused(t *testing.T) {
	for name, c := range map[string]struct {
		spoil func(*Problem)
		where string
	}{
		"less than nothing there": {func(p *Problem) { p.Resources[0].Have = -1 }, "resource plant 1"},
		"negative step":           {func(p *Problem) { p.Resources[1].Step = -1 }, "resource plant 2"},
		"no lot":                  {func(p *Problem) { p.Products[0].Lots = nil }, "product doors"},
		"no packs":                {func(p *Problem) { p.Products[0].Lots[0].Packs = 0 }, "product doors, lot one"},
		"negative use":            {func(p *Problem) { p.Products[0].Lots[0].Uses[0] = -1 }, "product doors, lot one"},
		"uses forgotten":          {func(p *Problem) { p.Products[0].Lots[0].Uses = nil }, "product doors, lot one"},
		"negative promise":        {func(p *Problem) { p.Products[0].Lots[0].Least = -1 }, "product doors, lot one"},
		"nothing limits it":       {func(p *Problem) { clear(p.Products[0].Lots[0].Uses) }, "product doors, lot one"},
		"too much money":          {func(p *Problem) { p.Products[1].Lots[0].Contribution = 1 << 62 }, "product windows, lot one"},
	} {
		p := wyndor()
		c.spoil(&p)
		_, err := Best(p)
		var bad *InputError
		if !errors.As(err, &bad) || bad.Where != c.where || bad.Fix == "" {
			t.Errorf("%s: %v, want it refused at %q", name, err, c.where)
		}
	}
	if _, err := Rank(wyndor(), 3); err == nil {
		t.Error("a resource that is not there was ranked by")
	}
	if m, err := Best(Problem{}); err != nil || m.Contribution != 0 {
		t.Errorf("nothing to choose from: %+v, %v", m, err)
	}
}

func TestCheckFindsWhatIsWrong(t *testing.T) {
	for name, spoil := range map[string]func(*Mix){
		"too many":       func(m *Mix) { m.Lots[0][0]++; m.Contribution += u(45) },
		"too little":     func(m *Mix) { m.Lots[1][0] = -1 },
		"money":          func(m *Mix) { m.Contribution++ },
		"over a limit":   func(m *Mix) { m.Lots[1][0]++; m.Contribution += u(60) },
		"other lots":     func(m *Mix) { m.Lots[0] = nil },
		"other problems": func(m *Mix) { m.Lots = nil },
	} {
		m, err := Best(haystack())
		if err != nil {
			t.Fatal(err)
		}
		spoil(&m)
		if Check(haystack(), m) == nil {
			t.Errorf("%s: let through", name)
		}
	}
}
