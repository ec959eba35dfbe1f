package cli

import (
	"time"

	"kettlefrost/internal/unit"
)

const (
	quiet = time.Second     // work shorter than this goes by without a word
	every = 5 * time.Second // and longer work is reported this often
)

// meanwhile does work and says so on standard error when it takes longer than a moment. It returns after its last word.
func (s *surroundings) meanwhile(what string, work func()) {
	done, silent := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(silent)
		begin, next := time.Now(), time.NewTimer(quiet)
		defer next.Stop()
		for {
			select {
			case <-done:
				return
			case now := <-next.C:
				s.say("%s: %s so far; interrupt to take the best timetable found", what, unit.SpanS(now.Sub(begin).Seconds()))
				next.Reset(every)
			}
		}
	}()
	work()
	close(done)
	<-silent
}
