package session

import "maps"

// Picture is the file of a picture kept with the project, as model.Picture.File
// names it; nil where there is none. It must not be written into.
func (s *Session) Picture(file string) []byte { return s.pictures[file] }

// KeepPicture keeps the file of a picture with the project. It is no step of
// history: what names it is, by edit.AddPicture. A file that the document no
// longer names is left out when it is saved.
func (s *Session) KeepPicture(file string, data []byte) {
	s.pictures = maps.Clone(s.pictures)
	if s.pictures == nil {
		s.pictures = map[string][]byte{}
	}
	s.pictures[file] = data
}

// named are the pictures that the document as saved names.
func (s *Session) named() map[string][]byte {
	var out map[string][]byte
	for _, q := range s.now.pattern.Pictures {
		data, ok := s.pictures[q.File]
		if !ok {
			continue
		}
		if out == nil {
			out = map[string][]byte{}
		}
		out[q.File] = data
	}
	return out
}
