package web

import (
	"errors"
	"fmt"
	"net/http"
	"strconv"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/ledger"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// creditFormPage is all that templates/creditform.html may show: what of an invoice is taken back.
type creditFormPage struct {
	shell
	Number, Bill, Action, Entry string
	Problem                     string
	Lines                       []creditLine
	Off                         [2]field // how much, and its tax
	Says, Why, Packs            field
	All                         bool
}

// creditLine is packs of a line that can be taken back.
type creditLine struct {
	Field    field
	Of, Left string
}

var creditFormTemplate = parse[creditFormPage]("creditform")

func (s *server) showCreditForm(w http.ResponseWriter, r *http.Request) {
	s.creditForm(w, r, http.StatusOK, "")
}

// creditForm shows the form, with what was typed and why it was not taken.
func (s *server) creditForm(w http.ResponseWriter, r *http.Request, status int, problem string) {
	number := r.PathValue("number")
	missing := false
	s.atCounter(w, r, "Credit "+number, func(x cashDesk) (func(), error) {
		b := x.Bill(number)
		if missing = b == nil; missing {
			return func() {}, nil
		}
		v := creditFormPage{shell: x.sh, Number: number, Bill: billURL(number), Action: billURL(number) + "/credit", Entry: newEntryID(), Problem: problem, All: r.PostForm.Get("all") != ""}
		taxes := []option{{Says: "none"}}
		for _, l := range b.Left() {
			line := b.Lines[l.Line]
			if line.Pack != "" {
				v.Lines = append(v.Lines, creditLine{field{Key: fmt.Sprintf("back-%d", l.Line), Label: line.Says, Value: tidy(r.PostForm.Get(fmt.Sprintf("back-%d", l.Line)))}, strings.TrimSpace(line.Order + " " + shortDate(line.Day)), fmt.Sprintf("of %d at %s", l.Count, line.Each.Show(x.currency))})
			}
			if line.Tax != "" && !hasOption(taxes, line.Tax) {
				taxes = append(taxes, option{Value: line.Tax, Says: line.Tax, Here: r.PostForm.Get("tax") == line.Tax || r.PostForm.Get("tax") == ""})
			}
		}
		v.Says = field{Key: "says", Label: "Or an amount off, for", Hint: "such as came a day late", Value: tidy(r.PostForm.Get("says"))}
		v.Off[0] = field{Key: "off", Label: "How much", Hint: "as the prices are: with the tax in it or not", Value: tidy(r.PostForm.Get("off"))}
		v.Off[1] = field{Key: "tax", Label: "Its tax", Options: taxes}
		v.Packs = x.creditPacks(b, r.PostForm.Get("packs"))
		v.Why = field{Key: "why", Label: "Why, as it stands on the credit note", Value: tidy(r.PostForm.Get("why"))}
		return func() { creditFormTemplate.show(w, status, v) }, nil
	})
	if missing {
		s.billsAsked(w, r, number)
	}
}

func hasOption(all []option, value string) bool {
	for _, o := range all {
		if o.Value == value {
			return true
		}
	}
	return false
}

// creditBill issues a credit note.
func (s *server) creditBill(w http.ResponseWriter, r *http.Request) {
	said, ok := s.sender(w, r)
	if !ok {
		return
	}
	book, _ := s.house.Book()
	note, err := s.records.Credit(r.Context(), book, said, r.PathValue("number"), func(b *ledger.Bill, number string, day record.Day) (record.Credited, error) {
		why := tidy(r.PostForm.Get("why"))
		if why == "" {
			return record.Credited{}, errors.New("it is not said why: write a few words")
		}
		x, err := credited(r, b, number, day, why)
		x.Off = r.PostForm.Get("packs") != packsStay
		return x, err
	})
	switch {
	case err == nil:
		http.Redirect(w, r, creditURL(note.Credit)+"?issued=1", http.StatusSeeOther)
	case app.IsTrouble(err):
		status, text := trouble(err)
		s.refuse(w, r, status, text)
	default:
		text := sentence(err)
		if back := (*ledger.BackError)(nil); errors.As(err, &back) {
			text = capital(back.Problem) + ": " + back.Fix + "."
		}
		s.creditForm(w, r, http.StatusUnprocessableEntity, text)
	}
}

// What becomes of packs that are credited.
const (
	packsStay = "stay"
	packsBack = "back"
	packsAnew = "anew"
)

// creditPacks asks what becomes of the packs: by what the records know when nobody has said.
func (x cashDesk) creditPacks(b *ledger.Bill, chosen string) field {
	if chosen == "" {
		chosen = packsStay
		_, over := x.Unbilled()
		for _, d := range over {
			for _, l := range b.Lines {
				if l.Pack == d.Pack && l.Order == d.Order && b.Customer == d.Customer {
					chosen = packsBack
				}
			}
		}
	}
	f := field{Key: "packs", Label: "The packs"}
	for _, o := range []option{{Value: packsStay, Says: "stay where they are: thrown away, or sold for less"}, {Value: packsBack, Says: "came back"}, {Value: packsAnew, Says: "are to be billed anew: this was wrong"}} {
		o.Here = o.Value == chosen
		f.Options = append(f.Options, o)
	}
	return f
}

func credited(r *http.Request, b *ledger.Bill, number string, day record.Day, why string) (record.Credited, error) {
	if r.PostForm.Get("all") != "" {
		return b.CreditAll(number, day, why)
	}
	back, off, err := readCredit(r, b)
	if err != nil {
		return record.Credited{}, err
	}
	return b.CreditNote(number, day, why, back, off)
}

// readCredit reads what is taken back.
func readCredit(r *http.Request, b *ledger.Bill) (back []ledger.Back, off []ledger.Allowance, err error) {
	for i, l := range b.Lines {
		text := tidy(r.PostForm.Get(fmt.Sprintf("back-%d", i)))
		if text == "" || text == "0" {
			continue
		}
		n, err := strconv.ParseInt(text, 10, 64)
		if err != nil {
			return nil, nil, fmt.Errorf("%q of %s is no number of packs", shorten(text), l.Says)
		}
		back = append(back, ledger.Back{Line: i, Count: n})
	}
	if text := tidy(r.PostForm.Get("off")); text != "" {
		amount, err := unit.ParseMoney(text)
		says := tidy(r.PostForm.Get("says"))
		switch {
		case err != nil:
			return nil, nil, fmt.Errorf("%q is no amount: write for example 4.00", shorten(text))
		case says == "":
			return nil, nil, errors.New("it is not said what the amount is for: write a few words")
		}
		off = append(off, ledger.Allowance{Says: says, Amount: amount, Tax: r.PostForm.Get("tax")})
	}
	return back, off, nil
}
