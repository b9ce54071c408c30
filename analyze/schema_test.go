package analyze

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"captally.example/captally/segment"
)

func compileSchema(t *testing.T) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(Schema()))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("report.schema.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("report.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestSchema(t *testing.T) {
	schema := compileSchema(t)
	valid := func(text string) error {
		doc, err := jsonschema.UnmarshalJSON(strings.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		return schema.Validate(doc)
	}
	for name, s := range map[string]*segment.Session{"sample": sample(), "empty": {}} {
		report, err := json.Marshal(Measure(s, Options{}))
		if err != nil {
			t.Fatal(err)
		}
		if err := valid(string(report)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if name == "empty" {
			continue
		}
		for _, wrong := range [][2]string{
			{`"report":1`, `"report":2`},
			{`"verdict":"over"`, `"verdict":"unstated"`},
			{`"cause":"session"`, `"cause":"nobody"`},
			{`"kind":"warm-up"`, `"kind":"warmup"`},
			{`"performed":{"seconds":31}`, `"performed":{}`},
			{`"at_s":1,`, ``},
			{`"probability":0.`, `"probability":7.`},
		} {
			broken := strings.Replace(string(report), wrong[0], wrong[1], 1)
			if broken == string(report) && wrong[1] != "" {
				t.Errorf("the sample has no %s to break", wrong[0])
			} else if broken != string(report) && valid(broken) == nil {
				t.Errorf("%s instead of %s passes the schema", wrong[1], wrong[0])
			}
		}
	}
}
