package caption

import (
	"encoding/json"
	"strings"
)

// maxJSONDepth is how deep values may stand in each other.
const maxJSONDepth = 64

// A jsonNode is one value of a JSON file, with its line.
type jsonNode struct {
	key   string // in its object, else empty
	kind  byte   // '{' '[' 's' string, 'n' number, 'b' true, false or null
	text  string // of a string or a number
	items []*jsonNode
	line  int
}

// readTree reads JSON as far as it goes: cut is true where it ends early or is broken.
func readTree(src string) (root *jsonNode, cut, deep bool) {
	dec := json.NewDecoder(strings.NewReader(withoutNaN(src)))
	dec.UseNumber()
	lines := lineCounter{src: src}
	root = &jsonNode{kind: '['} // holds the values at the top
	stack := []*jsonNode{root}
	key, haveKey := "", false
	for {
		tok, err := dec.Token()
		if err != nil {
			return root, len(stack) > 1 || err.Error() != "EOF", false
		}
		top := stack[len(stack)-1]
		if s, ok := tok.(string); ok && top.kind == '{' && !haveKey {
			key, haveKey = s, true
			continue
		}
		if d, ok := tok.(json.Delim); ok && (d == '}' || d == ']') {
			stack = stack[:len(stack)-1]
			continue
		}
		n := &jsonNode{key: key, line: lines.at(int(dec.InputOffset()))}
		key, haveKey = "", false
		switch v := tok.(type) {
		case json.Delim:
			n.kind = byte(v)
		case string:
			n.kind, n.text = 's', v
		case json.Number:
			n.kind, n.text = 'n', v.String()
		default:
			n.kind = 'b'
		}
		top.items = append(top.items, n)
		if n.kind == '{' || n.kind == '[' {
			if len(stack) > maxJSONDepth {
				return root, false, true
			}
			stack = append(stack, n)
		}
	}
}

// withoutNaN puts an empty string in the place of NaN and Infinity, which some writers of JSON let through; lengths stay.
func withoutNaN(src string) string {
	if !strings.Contains(src, "NaN") && !strings.Contains(src, "Infinity") {
		return src
	}
	b := []byte(src)
	quoted := false
	for i := 0; i < len(b); i++ {
		switch {
		case quoted && b[i] == '\\':
			i++
		case b[i] == '"':
			quoted = !quoted
		case quoted:
		default:
			for _, word := range [...]string{"NaN", "-Infinity", "Infinity"} {
				if strings.HasPrefix(src[i:], word) {
					copy(b[i:], `""`+strings.Repeat(" ", len(word)-2))
					i += len(word) - 1
					break
				}
			}
		}
	}
	return string(b)
}

// A lineCounter turns rising offsets into lines.
type lineCounter struct {
	src  string
	pos  int
	line int
}

func (c *lineCounter) at(pos int) int {
	pos = min(pos, len(c.src))
	if pos > c.pos {
		c.line += strings.Count(c.src[c.pos:pos], "\n")
		c.pos = pos
	}
	return c.line + 1
}

// get returns the first member with one of the names, nil for none.
func (n *jsonNode) get(names ...string) *jsonNode {
	if n == nil || n.kind != '{' {
		return nil
	}
	for _, name := range names {
		for _, m := range n.items {
			if m.key == name {
				return m
			}
		}
	}
	return nil
}

// str returns the text of the first member with one of the names that is a string.
func (n *jsonNode) str(names ...string) string {
	if m := n.get(names...); m != nil && m.kind == 's' {
		return m.text
	}
	return ""
}

// list returns the items of the first member with one of the names that is an array.
func (n *jsonNode) list(names ...string) []*jsonNode {
	for _, name := range names {
		if m := n.get(name); m != nil && m.kind == '[' {
			return m.items
		}
	}
	return nil
}
