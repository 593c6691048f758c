package ipp

import (
	"encoding/binary"

	"quarterstep/assets/words"
)

// Tags of groups and values (RFC 8010, 3.5).
const (
	OperationGroup = 0x01
	JobGroup       = 0x02
	endOfGroups    = 0x03
	PrinterGroup   = 0x04

	tagCollection = 0x34
	tagEndOfOne   = 0x37
	tagKeyword    = 0x44
	tagURI        = 0x45
	tagName       = 0x42
	tagCharset    = 0x47
	tagLanguage   = 0x48
)

// version is 1.1, which every printing system answers.
const version = 0x0101

// Message is a request or an answer.
type Message struct {
	Code   int // of the operation asked for, or the status answered
	ID     int
	Groups []Group
}

// Group is a list of attributes of one thing: a printer, a job.
type Group struct {
	Tag        int
	Attributes []Attribute
}

// Attribute is a named list of values.
type Attribute struct {
	Name   string
	Values []Value
}

// Value is one value as it is sent.
type Value struct {
	Tag  int
	Data []byte
}

// Text is a value as words; of a text with a language, the words alone.
func (v Value) Text() string {
	const withLanguage, nameWithLanguage = 0x35, 0x36
	if v.Tag == withLanguage || v.Tag == nameWithLanguage {
		if _, rest, ok := cut(v.Data); ok {
			if words, _, ok := cut(rest); ok {
				return string(words)
			}
		}
		return ""
	}
	return string(v.Data)
}

// Int is a value as a number; 0 where it is none.
func (v Value) Int() int {
	switch len(v.Data) {
	case 4:
		return int(int32(binary.BigEndian.Uint32(v.Data)))
	case 1:
		return int(v.Data[0])
	}
	return 0
}

// Get lists the values of an attribute; none where it is not there.
func (g Group) Get(name string) []Value {
	for _, a := range g.Attributes {
		if a.Name == name {
			return a.Values
		}
	}
	return nil
}

// Text is the first value of an attribute as words; empty where there is none.
func (g Group) Text(name string) string {
	if v := g.Get(name); len(v) > 0 {
		return v[0].Text()
	}
	return ""
}

// Int is the first value of an attribute as a number; 0 where there is none.
func (g Group) Int(name string) int {
	if v := g.Get(name); len(v) > 0 {
		return v[0].Int()
	}
	return 0
}

// Encode writes the message (RFC 8010, 3.1). It fails on a name or value that
// is too long to be sent.
func (m Message) Encode() ([]byte, error) {
	out := binary.BigEndian.AppendUint16(nil, version)
	out = binary.BigEndian.AppendUint16(out, uint16(m.Code))
	out = binary.BigEndian.AppendUint32(out, uint32(m.ID))
	for _, g := range m.Groups {
		out = append(out, byte(g.Tag))
		for _, a := range g.Attributes {
			for i, v := range a.Values {
				name := a.Name
				if i > 0 {
					name = ""
				}
				if len(name) > mostBytes || len(v.Data) > mostBytes {
					return nil, words.Errorf("%.40q is too long to be sent to the printing system", a.Name)
				}
				out = append(out, byte(v.Tag))
				out = binary.BigEndian.AppendUint16(out, uint16(len(name)))
				out = append(out, name...)
				out = binary.BigEndian.AppendUint16(out, uint16(len(v.Data)))
				out = append(out, v.Data...)
			}
		}
	}
	return append(out, endOfGroups), nil
}

// mostBytes of a name or a value.
const mostBytes = 1<<15 - 1

var errNoAnswer = words.Fault("the printing system's answer cannot be read")

// Decode reads a message; collections are left out.
func Decode(data []byte) (Message, error) {
	if len(data) < 8 {
		return Message{}, errNoAnswer
	}
	m := Message{
		Code: int(binary.BigEndian.Uint16(data[2:])),
		ID:   int(binary.BigEndian.Uint32(data[4:])),
	}
	data = data[8:]
	depth, inside := 0, false // collections open; whether the attribute is one
	for len(data) > 0 {
		tag := int(data[0])
		data = data[1:]
		if tag == endOfGroups {
			if depth > 0 {
				return Message{}, errNoAnswer
			}
			return m, nil
		}
		if tag < 0x10 {
			if depth > 0 {
				return Message{}, errNoAnswer
			}
			m.Groups, inside = append(m.Groups, Group{Tag: tag}), false
			continue
		}
		name, rest, ok := cut(data)
		if !ok {
			return Message{}, errNoAnswer
		}
		value, rest, ok := cut(rest)
		if !ok || len(m.Groups) == 0 {
			return Message{}, errNoAnswer
		}
		data = rest
		switch {
		case tag == tagCollection:
			depth++
			inside = true
		case tag == tagEndOfOne:
			if depth--; depth < 0 {
				return Message{}, errNoAnswer
			}
		case depth > 0:
		default:
			g := &m.Groups[len(m.Groups)-1]
			n := len(g.Attributes)
			switch {
			case len(name) > 0:
				inside = false
				g.Attributes = append(g.Attributes, Attribute{Name: string(name), Values: []Value{{tag, value}}})
			case inside:
			case n == 0:
				return Message{}, errNoAnswer
			default:
				g.Attributes[n-1].Values = append(g.Attributes[n-1].Values, Value{tag, value})
			}
		}
	}
	return Message{}, errNoAnswer // no end
}

// cut takes a length of two bytes and as many bytes off data.
func cut(data []byte) (taken, rest []byte, ok bool) {
	if len(data) < 2 {
		return nil, nil, false
	}
	n := int(binary.BigEndian.Uint16(data))
	if n > len(data)-2 {
		return nil, nil, false
	}
	return data[2 : 2+n], data[2+n:], true
}
