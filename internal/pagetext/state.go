package pagetext

import "strings"

// where a reader of HTML is.
type where int

const (
	content where = iota
	comment
	tag       // within a tag, before or after an attribute
	attribute // within the name of an attribute
	before    // after its =
	value
)

// state is what a reader of HTML knows at a place.
type state struct {
	in      where
	element string // whose tag is being read
	closing bool
	attr    string
	quote   byte
	quiet   bool     // this tag says that its element is not to be translated
	button  bool     // a link that looks like a button
	presses bool     // an input whose value is its name
	hush    []string // open elements that are not translated, and those like them within
	raw     string   // script, style or textarea that is open: nothing in it is a tag
}

// spoken tells whether people read the attribute, or hear it.
func (s state) spoken() bool {
	if s.closing || len(s.hush) > 0 {
		return false
	}
	switch s.attr {
	case "aria-label", "aria-description", "aria-roledescription", "aria-valuetext", "title", "placeholder", "alt", "data-label", "data-queue", "data-confirm", "data-done":
		return true
	case "label":
		return s.element == "optgroup" || s.element == "option" || s.element == "track"
	case "value":
		return s.presses
	}
	return strings.HasPrefix(s.attr, "data-say")
}

var (
	voids  = set("area base br col embed hr img input link meta source track wbr")
	raws   = set("script style textarea")
	silent = set("script style textarea code pre kbd samp svg math")
	inline = set("a abbr b bdi bdo cite data del dfn em i ins mark q s small span strong sub sup time u var code kbd samp wbr")
)

// named has the name of an attribute.
func (s *state) named(name string) {
	s.attr = strings.ToLower(name)
}

// valued has a part of the value of an attribute.
func (s *state) valued(part string) {
	switch s.attr {
	case "translate":
		s.quiet = s.quiet || part == "no"
	case "lang":
		s.quiet = s.quiet || s.element != "html"
	case "class":
		s.button = s.button || strings.Contains(" "+part+" ", " button ")
	case "type":
		s.presses = s.element == "input" && (part == "submit" || part == "button" || part == "reset")
	}
}

// begun is at the beginning of a tag.
func (s *state) begun(element string, closing bool) {
	s.in, s.element, s.closing, s.attr, s.quiet, s.button, s.presses = tag, strings.ToLower(element), closing, "", false, false, false
}

// ended is at the end of a tag.
func (s *state) ended() {
	s.in, s.attr = content, ""
	switch top := len(s.hush) - 1; {
	case s.closing && top >= 0 && s.hush[top] == s.element:
		s.hush = s.hush[:top:top]
	case s.closing || voids[s.element]:
	case top >= 0 && s.hush[top] == s.element || silent[s.element] || s.quiet:
		s.hush = append(s.hush[:len(s.hush):len(s.hush)], s.element)
	}
	if raws[s.element] && !s.closing {
		s.raw = s.element
	}
}
