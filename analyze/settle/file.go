package settle

import (
	"bytes"
	_ "embed"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strings"
)

//go:embed schema/decisions.schema.json
var schema string

// Schema returns the JSON Schema of the file format (draft 2020-12).
func Schema() []byte { return []byte(schema) }

// A Fault is what is wrong with a file of decisions.
type Fault struct {
	Name string
	Line int // from 1
	Text string

	Newer bool // there is nothing wrong with it but that a later version of captally wrote it
}

func (f *Fault) Error() string { return fmt.Sprintf("%s:%d: %s", f.Name, f.Line, f.Text) }

// Parse reads the file format strictly: a field or a kind that is not known is an error, too. name is the file's, for messages;
// the error is a *Fault.
func Parse(name string, data []byte) (*Decisions, error) {
	fault := func(offset int, format string, args ...any) error {
		return &Fault{Name: name, Line: lineAt(data, offset), Text: fmt.Sprintf(format, args...)}
	}
	var file struct {
		Version  *int              `json:"captally_decisions"`
		Captions string            `json:"captions"`
		Name     string            `json:"name"`
		Revision int               `json:"revision"`
		Made     []json.RawMessage `json:"made"`
	}
	if v := versionOf(data); v > Version {
		return nil, &Fault{Name: name, Line: lineAt(data, bytes.Index(data, []byte(versionField))), Newer: true, Text: fmt.Sprintf("a file of version %d, of a later captally; this one reads version %d", v, Version)}
	}
	if at, err := strict(data, &file); err != nil {
		return nil, fault(at, "%v", err)
	}
	if file.Version == nil {
		return nil, fault(0, `no "captally_decisions": this is no file of decisions`)
	}
	if *file.Version != Version {
		return nil, fault(bytes.Index(data, []byte(versionField)), "no version is called %d", *file.Version)
	}
	d := &Decisions{Version: Version, Captions: file.Captions, Name: file.Name, Revision: file.Revision}
	at, seen := 0, map[int]bool{}
	for _, raw := range file.Made {
		at += bytes.Index(data[at:], raw)
		var x Decision
		if in, err := strict(raw, &x); err != nil {
			return nil, fault(at+in, "%v", err)
		}
		err := x.valid()
		if err == nil && seen[x.ID] {
			err = fmt.Errorf("a second decision with the id %d", x.ID)
		}
		if err != nil {
			return nil, fault(at, "%v", err)
		}
		seen[x.ID] = true
		d.Made = append(d.Made, x)
		at += len(raw)
	}
	return d, nil
}

const versionField = `"captally_decisions"`

// versionOf returns the version that a file says it has, whatever else is in it; 0 for none.
func versionOf(data []byte) int {
	var file struct {
		Version int `json:"captally_decisions"`
	}
	if json.Unmarshal(data, &file) != nil {
		return 0
	}
	return file.Version
}

// lineAt returns the line of an offset, from 1.
func lineAt(data []byte, offset int) int {
	return 1 + bytes.Count(data[:min(max(offset, 0), len(data))], []byte("\n"))
}

var unknownField = regexp.MustCompile(`^json: unknown field (".*")$`)

// strict decodes one JSON value that fills data, and says where it is wrong: the offset of the fault.
func strict(data []byte, v any) (int, error) {
	dec := json.NewDecoder(bytes.NewReader(data))
	dec.DisallowUnknownFields()
	err := dec.Decode(v)
	var syntax *json.SyntaxError
	var kind *json.UnmarshalTypeError
	switch {
	case err == nil:
		if _, err := dec.Token(); err != io.EOF {
			return int(dec.InputOffset()), errors.New("something follows the end of the decisions")
		}
		return 0, nil
	case errors.As(err, &syntax):
		return int(syntax.Offset), fmt.Errorf("no JSON: %s", strings.TrimPrefix(syntax.Error(), "json: "))
	case errors.As(err, &kind):
		return int(kind.Offset), fmt.Errorf("%q cannot be a %s", kind.Field, kind.Value)
	case errors.Is(err, io.ErrUnexpectedEOF), err == io.EOF:
		return len(data), errors.New("the file ends too early")
	}
	if m := unknownField.FindStringSubmatch(err.Error()); m != nil {
		return bytes.Index(data, []byte(m[1])), fmt.Errorf("a field %s is not known", m[1])
	}
	return 0, err
}

// Encode writes the file format: the same decisions give the same bytes.
func Encode(d *Decisions) []byte {
	out := *d
	out.Version = Version
	if out.Made == nil {
		out.Made = []Decision{}
	}
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", " ")
	if err := e.Encode(out); err != nil {
		panic(err) // no figure that JSON cannot write passes valid
	}
	return b.Bytes()
}
