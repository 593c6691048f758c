package store

import "bytes"

// lineLength is how long a list or object may be before each of its items gets
// a line.
const lineLength = 110

// layOut writes compact, valid JSON for a person to read: short lists and
// objects on a line, as well as any that have no other inside; all others with
// a line for each item.
func layOut(compact []byte) []byte {
	l := layouter{in: compact}
	l.value(0)
	l.out.WriteByte('\n')
	return l.out.Bytes()
}

// layouter copies in to out; in is what is still to come.
type layouter struct {
	in  []byte
	out bytes.Buffer
}

// value copies one value, itself or the inside of it set in by depth.
func (l *layouter) value(depth int) {
	if n := span(l.in, lineLength-2*depth); n > 0 {
		l.line(n)
		return
	}
	l.copy(1)
	for {
		l.newLine(depth + 1)
		if n := nameLength(l.in); n > 0 {
			l.line(n)
		}
		l.value(depth + 1)
		if l.in[0] != ',' {
			break
		}
		l.copy(1)
	}
	l.newLine(depth)
	l.copy(1)
}

// span is how many bytes the value at the start of in has; 0 for a list or an
// object that is longer than limit and has others inside.
func span(in []byte, limit int) int {
	open, nested := 0, false
	for i := 0; i < len(in) && (i < limit || !nested); i++ {
		switch in[i] {
		case '"':
			i += quoted(in[i:]) - 1
		case '{', '[':
			nested = nested || open > 0
			open++
		case '}', ']':
			open--
		}
		if open == 0 && (i+1 == len(in) || bytes.IndexByte([]byte(",}]"), in[i+1]) >= 0) {
			return i + 1
		}
	}
	return 0
}

// nameLength is how many bytes the name at the start of in has with its colon;
// 0 where there is none.
func nameLength(in []byte) int {
	if in[0] != '"' {
		return 0
	}
	if n := quoted(in); in[n] == ':' {
		return n + 1
	}
	return 0
}

// quoted is how many bytes the quoted words at the start of in have.
func quoted(in []byte) int {
	for i := 1; ; i++ {
		switch in[i] {
		case '\\':
			i++
		case '"':
			return i + 1
		}
	}
}

// line copies n bytes with a space after each comma and colon.
func (l *layouter) line(n int) {
	for end := len(l.in) - n; len(l.in) > end; {
		switch l.in[0] {
		case '"':
			l.copy(quoted(l.in))
		case ',', ':':
			l.copy(1)
			l.out.WriteByte(' ')
		default:
			l.copy(1)
		}
	}
}

func (l *layouter) copy(n int) {
	l.out.Write(l.in[:n])
	l.in = l.in[n:]
}

func (l *layouter) newLine(depth int) {
	l.out.WriteByte('\n')
	for range depth {
		l.out.WriteString("  ")
	}
}
