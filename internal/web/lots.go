package web

import (
	"net/url"

	"kettlefrost/internal/record"
)

const (
	lotPath    = "/lot"
	recallPath = "/recall"
)

func lotURL(base string, id record.Lot, query url.Values) string {
	q := url.Values{"lot": {string(id)}}
	if units := query.Get("units"); units != "" {
		q.Set("units", units)
	}
	return base + "?" + q.Encode()
}
