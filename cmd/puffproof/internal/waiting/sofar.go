package waiting

import (
	"io"
	"sync"
)

// SoFar is what a run has found so far, as it is shown where an interrupt ends the run. Of nil nothing is kept.
type SoFar struct {
	mu   sync.Mutex
	text []byte
}

// Is takes over a text in the place of the one before.
func (s *SoFar) Is(text []byte) {
	if s == nil {
		return
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.text = text
}

// Show writes it. Who is gone misses nothing.
func (s *SoFar) Show(to io.Writer) {
	if s == nil {
		return
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	_, _ = to.Write(s.text)
}
