package web

import (
	"encoding/json"
	"fmt"
	"net/http"
	"strconv"
	"time"

	"kettlefrost/internal/record"
)

// beat is how often a stream of news that has none says that it is still there: whoever stands between would otherwise end it.
const beat = 15 * time.Second

// news is what is told of a new entry: that it is there. Who wants to know more asks for the page.
type news struct {
	Seq  uint64      `json:"seq"`
	Kind record.Kind `json:"kind"`
	Who  string      `json:"who"`
}

// showEvents tells of each new entry as it comes, whichever device it comes from, as server-sent events.
func (s *server) showEvents(w http.ResponseWriter, r *http.Request) {
	after, err := strconv.ParseUint(r.URL.Query().Get("after"), 10, 64)
	if last := r.Header.Get("Last-Event-ID"); last != "" { // the stream was cut, and goes on
		after, err = strconv.ParseUint(last, 10, 64)
	}
	if err != nil {
		http.Error(w, "Ask for the events after an entry's number: /events?after=0", http.StatusBadRequest)
		return
	}
	if z, ok := w.(*zipped); ok {
		w = z.ResponseWriter // each piece of news goes out at once
	}
	out := http.NewResponseController(w)
	out.SetWriteDeadline(time.Time{}) // it is open as long as the page is; not every server has deadlines
	w.Header().Set("Content-Type", "text/event-stream")
	w.Header().Set("Cache-Control", "no-store")
	w.Header().Set("X-Accel-Buffering", "no") // a proxy must not gather them
	fmt.Fprint(w, "retry: 1000\n\n")
	if out.Flush() != nil {
		return
	}
	entries := make(chan record.Entry)
	go func() {
		defer close(entries)
		for e, err := range s.records.Follow(r.Context(), after) {
			if err != nil {
				return
			}
			select {
			case entries <- e:
			case <-r.Context().Done():
				return
			}
		}
	}()
	pulse := time.NewTicker(beat)
	defer pulse.Stop()
	for {
		select {
		case e, more := <-entries:
			if !more {
				return
			}
			data, err := json.Marshal(news{e.Seq, e.Kind, e.Who})
			if err != nil {
				return
			}
			fmt.Fprintf(w, "id: %d\ndata: %s\n\n", e.Seq, data)
		case <-pulse.C:
			fmt.Fprint(w, ": still here\n\n")
		}
		if out.Flush() != nil {
			return
		}
	}
}
