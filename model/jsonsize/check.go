package jsonsize

import (
	"quarterstep/assets/words"
)

// Most is what a file may hold at most.
type Most struct {
	// Items counts those of all lists that begin at a level: Items[0] at level
	// 1, the last one at every deeper level.
	Items []int
	// Names counts those of all objects together.
	Names int
}

// mostLevels is how deep lists and objects may lie in each other.
const mostLevels = 64

// Check refuses data that holds more than it may. Of data that is no JSON it
// says nothing.
func Check(data []byte, most Most) error {
	s := scan{data: data, most: most, items: make([]int, len(most.Items))}
	for s.at < len(data) {
		if err := s.step(); err != nil {
			return err
		}
	}
	return nil
}

// scan is a walk through a file; lists says of each level whether a list began
// it.
type scan struct {
	data  []byte
	most  Most
	at    int
	lists []bool
	items []int
	names int
}

func (s *scan) step() error {
	c := s.data[s.at]
	s.at++
	switch c {
	case '"':
		s.passWords()
	case '{', '[':
		if len(s.lists) == mostLevels {
			return words.Errorf("its parts lie in each other more than %d deep", mostLevels)
		}
		s.lists = append(s.lists, c == '[')
		if c == '[' && !s.closesNext() {
			return s.item()
		}
	case '}', ']':
		s.lists = s.lists[:max(len(s.lists)-1, 0)]
	case ',':
		if n := len(s.lists); n > 0 && s.lists[n-1] {
			return s.item()
		}
	case ':':
		if s.names++; s.names > s.most.Names {
			return words.Errorf("it has more than %d names", s.most.Names)
		}
	}
	return nil
}

// item counts one more item of the list that is open.
func (s *scan) item() error {
	i := min(len(s.lists), len(s.items)) - 1
	if s.items[i]++; s.items[i] > s.most.Items[i] {
		return words.Errorf("it has more than %d items in its lists", s.most.Items[i])
	}
	return nil
}

// passWords goes to the end of the words that have begun.
func (s *scan) passWords() {
	for s.at < len(s.data) {
		c := s.data[s.at]
		s.at++
		switch c {
		case '\\':
			s.at++
		case '"':
			return
		}
	}
}

// closesNext reports whether the list that has begun is empty.
func (s *scan) closesNext() bool {
	for i := s.at; i < len(s.data); i++ {
		switch s.data[i] {
		case ' ', '\t', '\n', '\r':
			continue
		case ']':
			return true
		}
		return false
	}
	return true
}
