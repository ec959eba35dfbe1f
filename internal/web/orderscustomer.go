package web

import (
	"maps"
	"net/http"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"kettlefrost/internal/app"
	"kettlefrost/internal/orders"
	"kettlefrost/internal/record"
)

// customerForm is the form with what is known.
func (x shop) customerForm(c record.Customer) customerForm {
	n := func(v int64) string {
		if v == 0 {
			return ""
		}
		return strconv.FormatInt(v, 10)
	}
	f := customerForm{Action: customersPath + "/new", Entry: newEntryID(), Does: "Enter the customer", Heading: "New customer", Open: true, Address: string(c.Address), Note: string(c.Note),
		Name: field{Key: "name", Label: "Name", Value: c.Name}, Phone: field{Key: "phone", Label: "Telephone", Value: c.Phone}, Mail: field{Key: "mail", Label: "Mail", Value: c.Mail},
		Prices: field{Key: "prices", Label: "Price list", Hint: "as the book calls it; empty: the prices of the packs", Value: c.Prices},
		Life:   field{Key: "life", Label: "Days of life they want", Hint: "that packs must still have on the day they are due; empty: any", Value: n(c.LifeDays), Number: true},
		Lots:   field{Key: "lots", Label: "Lots they take", Hint: "of one kind, at most; empty: any number", Value: n(c.MostLots), Number: true}}
	if c.Customer != "" {
		f.Action, f.Does, f.Heading, f.Open = customerURL(c.Customer), "Change it from now on", "Change what is known", false
	}
	if lists := slices.Sorted(maps.Keys(x.book.PriceLists)); len(lists) > 0 {
		f.Prices.Options = []option{{Says: "the prices of the packs", Here: c.Prices == ""}}
		for _, id := range lists {
			f.Prices.Options = append(f.Prices.Options, option{Value: string(id), Says: string(id), Here: c.Prices == string(id)})
		}
		if c.Prices != "" && !slices.ContainsFunc(f.Prices.Options, func(o option) bool { return o.Here }) {
			f.Prices.Options = append(f.Prices.Options, option{Value: c.Prices, Says: c.Prices + " (not in the book)", Here: true})
		}
	}
	return f
}

// readCustomer is what a form says of a customer, and what is wrong with it, by field.
func readCustomer(r *http.Request) (c record.Customer, wrong map[string]string) {
	wrong = map[string]string{}
	f := r.PostForm
	c = record.Customer{Name: tidy(f.Get("name")), Address: record.Text(tidyLines(f.Get("address"))), Phone: tidy(f.Get("phone")), Mail: tidy(f.Get("mail")), Prices: tidy(f.Get("prices")), Note: record.Text(tidyLines(f.Get("note")))}
	number := func(key string) int64 {
		text := tidy(f.Get(key))
		if text == "" {
			return 0
		}
		n, err := strconv.ParseInt(text, 10, 64)
		if err != nil || n < 0 || n > 10_000 {
			wrong[key] = "Write a whole number up to 10000, or leave it empty."
		}
		return n
	}
	c.LifeDays, c.MostLots = number("life"), number("lots")
	if c.Name == "" {
		wrong["name"] = "Write the name."
	}
	if c.Mail != "" && !strings.Contains(c.Mail, "@") {
		wrong["mail"] = "A mail address has an @."
	}
	return c, wrong
}

// enterCustomer enters a new customer, or what is known of one from now on.
func (s *server) enterCustomer(w http.ResponseWriter, r *http.Request) {
	if r.ParseForm() != nil {
		s.refuse(w, r, http.StatusBadRequest, "This form cannot be read.")
		return
	}
	id := r.PathValue("id")
	if e, there := s.entryOf(r); there {
		if body, err := record.Decode(e.Kind, e.Body); err == nil {
			if c, ok := body.(record.Customer); ok {
				s.sentBefore(w, r, customerURL(c.Customer))
				return
			}
		}
	}
	c, wrong := readCustomer(r)
	same := ""
	err := s.records.Desk(r.Context(), app.Today(s.house.Now()), func(d app.Desk) error {
		c.Customer = id
		if id == "" {
			c.Customer = newCustomerID(c.Name, d.State)
			same = sameName(c.Name, d.State)
		}
		return nil
	})
	switch {
	case err != nil:
		status, text := trouble(err)
		s.refuse(w, r, status, text)
	case len(wrong) > 0 || same != "" && r.PostFormValue("sure") == "":
		s.showCustomerWith(w, r, http.StatusUnprocessableEntity, func(v *customerPage) { v.Form.again(c, id, wrong, same, r) })
	default:
		s.enter(w, r, customerURL(c.Customer), c)
	}
}

// entryOf is the entry that a form made when it was sent before.
func (s *server) entryOf(r *http.Request) (e record.Entry, there bool) {
	id, err := record.ParseID(r.PostFormValue(entryField))
	if err != nil || id == (record.ID{}) {
		return e, false
	}
	e, there, err = s.records.Taken(r.Context(), id)
	return e, there && err == nil
}

// again is the form with everything typed kept.
func (f *customerForm) again(c record.Customer, id string, wrong map[string]string, same string, r *http.Request) {
	f.Open, f.Address, f.Note = true, string(c.Address), string(c.Note)
	if same != "" {
		f.AskSame = "There is a customer of that name: " + same + ". Is this another?"
	}
	for key, x := range map[string]*field{"name": &f.Name, "phone": &f.Phone, "mail": &f.Mail, "prices": &f.Prices, "life": &f.Life, "lots": &f.Lots} {
		x.Value, x.Problem = tidy(r.PostFormValue(key)), wrong[key]
		for i := range x.Options {
			x.Options[i].Here = x.Options[i].Value == x.Value
		}
	}
}

// newCustomerID is a short name for good: of Café Örtlich it is cafe-ortlich, or cafe-ortlich-2 when that is somebody.
func newCustomerID(name string, s *orders.State) string {
	var b strings.Builder
	for _, r := range strings.ToLower(name) {
		if plain, ok := plainLetters[r]; ok {
			b.WriteString(plain)
		} else if r < 128 && (unicode.IsLetter(r) || unicode.IsDigit(r)) {
			b.WriteRune(r)
		} else if b.Len() > 0 && !strings.HasSuffix(b.String(), "-") {
			b.WriteByte('-')
		}
		if b.Len() > 40 {
			break
		}
	}
	base := strings.Trim(b.String(), "-")
	if base == "" {
		base = "customer"
	}
	for n := 1; ; n++ {
		id := base
		if n > 1 {
			id += "-" + strconv.Itoa(n)
		}
		if !s.Customer(id).Known {
			return id
		}
	}
}

// plainLetters are letters that people write without their marks in an address.
var plainLetters = func() map[rune]string {
	all := map[rune]string{'ß': "ss", 'æ': "ae", 'ø': "o", 'œ': "oe", 'ł': "l", 'đ': "d", 'þ': "th"}
	for plain, marked := range map[string]string{"a": "àáâãäåā", "c": "çćč", "e": "èéêëēę", "i": "ìíîïī", "n": "ñńň", "o": "òóôõöō", "u": "ùúûüū", "y": "ýÿ", "s": "śš", "z": "źżž", "r": "ř", "t": "ť"} {
		for _, r := range marked {
			all[r] = plain
		}
	}
	return all
}()

// sameName is the id of a customer of that name; "" for none.
func sameName(name string, s *orders.State) string {
	for _, c := range s.Customers() {
		if strings.EqualFold(c.Name, name) {
			return c.Customer.Customer
		}
	}
	return ""
}
