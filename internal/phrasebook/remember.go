package phrasebook

import "sync"

// memory keeps what was said last, as pages say mostly the same: a text is then looked up once. It holds two lots of texts; when one is full
// the older is forgotten.
type memory struct {
	mu          sync.RWMutex
	now, before map[string]string
}

const (
	mostRemembered = 8192 // texts in one lot
	longRemembered = 400  // bytes of a text that is kept
)

// said is a text as it was said before, or as it is said now.
func (m *memory) said(text string, say func(string) string) string {
	if len(text) > longRemembered {
		return say(text)
	}
	m.mu.RLock()
	was, ok := m.now[text]
	if !ok {
		was, ok = m.before[text]
	}
	m.mu.RUnlock()
	if ok {
		return was
	}
	was = say(text)
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.now == nil || len(m.now) >= mostRemembered {
		m.now, m.before = map[string]string{}, m.now
	}
	m.now[text] = was
	return was
}
