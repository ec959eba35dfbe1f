package app

import (
	"testing"
)

// What two hundred runs say: when nothing was entered since it was asked last, when the book was changed, and when a run came.
func BenchmarkLessons(b *testing.B) {
	k := newLearningKitchen(b, nil)
	k.works(b, 200)
	if _, err := k.learning.Lessons(b.Context()); err != nil {
		b.Fatal(err)
	}
	b.Run("again", func(b *testing.B) {
		for b.Loop() {
			if _, err := k.learning.Lessons(b.Context()); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("another book", func(b *testing.B) {
		for b.Loop() {
			clear(k.learning.made)
			if _, err := k.learning.Lessons(b.Context()); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("one more run", func(b *testing.B) {
		for b.Loop() {
			b.StopTimer()
			k.works(b, 1)
			b.StartTimer()
			if _, err := k.learning.Lessons(b.Context()); err != nil {
				b.Fatal(err)
			}
		}
	})
}
