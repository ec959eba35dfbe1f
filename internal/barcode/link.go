package barcode

import (
	"net/url"
	"slices"
	"strings"
)

// qualifiers of a GTIN in the path of a link, in their order (GS1 Digital Link standard, quoted).
var qualifiers = []string{"22", "10", "21"}

// Link is the Digital Link address of elements under a base such as "https://id.example.org": the GTIN and its qualifiers in the path, dates and
// measures in the query, everything percent-encoded. There must be a GTIN (01).
func (all Elements) Link(base string) (string, error) {
	u, err := url.Parse(base)
	if err != nil || u.Scheme != "https" && u.Scheme != "http" || u.Host == "" || u.RawQuery != "" || u.Fragment != "" || u.User != nil {
		return "", &InputError{"address of the link", base, "it is not an address that a link can begin with", "write it like https://id.example.org, without ? or #"}
	}
	if err := all.Check(); err != nil {
		return "", err
	}
	value := map[string]string{}
	for _, e := range all {
		value[e.AI] = e.Value
	}
	if value["01"] == "" {
		return "", &InputError{"link", all.Readable(), "it has no GTIN (01)", "add the number of the item"}
	}
	out := strings.TrimRight(base, "/") + "/01/" + value["01"]
	for _, q := range qualifiers {
		if value[q] != "" {
			out += "/" + q + "/" + url.QueryEscape(value[q])
		}
	}
	between := "?"
	for _, e := range all {
		if e.AI == "01" || slices.Contains(qualifiers, e.AI) {
			continue
		}
		out += between + e.AI + "=" + url.QueryEscape(e.Value)
		between = "&"
	}
	return out, nil
}
