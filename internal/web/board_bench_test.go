package web

import (
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"sync"
	"testing"
	"time"
)

// BenchmarkBoard shows the board of the kettle's day while twenty devices start and finish tasks, one entry a second each, and reports how long
// the pages took: the figures beside ns/op are of single pages, in milliseconds.
func BenchmarkBoard(b *testing.B) {
	for _, busy := range []int{0, 20} {
		b.Run(fmt.Sprintf("%d devices post", busy), func(b *testing.B) {
			d := openedDay(b)
			d.at("09:00")
			var keys []string
			for _, c := range d.report(b).Columns {
				for _, t := range append(append(c.Now, c.Next...), c.Waiting...) {
					keys = append(keys, t.Task)
				}
			}
			stop := make(chan struct{})
			var posting sync.WaitGroup
			for n := range busy {
				posting.Go(func() {
					tick := time.NewTicker(time.Second)
					defer tick.Stop()
					for i := 0; ; i++ {
						select {
						case <-stop:
							return
						case <-tick.C:
						}
						what := []string{"start", "finish"}[i%2]
						if w := d.send(url.Values{"what": {what}, "task": {keys[(n+i/2)%len(keys)]}}); w.Code != http.StatusSeeOther {
							b.Errorf("not entered: %d", w.Code)
							return
						}
					}
				})
			}
			var took []time.Duration
			for b.Loop() {
				began := time.Now()
				if w := get(d, "/board/"+boardRun+"?person="); w.Code != http.StatusOK {
					b.Fatal(w.Code)
				}
				took = append(took, time.Since(began))
				time.Sleep(5 * time.Millisecond) // twenty tablets do not ask without a pause
			}
			close(stop)
			posting.Wait()
			slices.Sort(took)
			for _, p := range []int{50, 95, 99} {
				b.ReportMetric(took[(len(took)-1)*p/100].Seconds()*1000, fmt.Sprintf("p%d_ms", p))
			}
			b.ReportMetric(float64(len(d.entries(b))), "entries")
		})
	}
}
