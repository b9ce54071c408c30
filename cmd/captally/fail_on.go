package main

import (
	"encoding/json"
	"slices"
	"strings"

	"captally.example/captally/analyze"
	"github.com/urfave/cli/v2"
)

// findingNames returns what --fail-on takes: any, then the kinds and the causes of findings as the report's schema lists them.
func findingNames() []string {
	type list struct{ Enum []string }
	var schema struct {
		Properties struct {
			Findings struct {
				Items struct {
					Properties struct{ Kind, Cause list }
				}
			}
		}
	}
	if err := json.Unmarshal(analyze.Schema(), &schema); err != nil {
		panic("the report's schema is no JSON: " + err.Error()) // it is built in and tested
	}
	p := schema.Properties.Findings.Items.Properties
	return slices.Concat([]string{"any"}, p.Kind.Enum, p.Cause.Enum)
}

// A failing says which findings make check fail.
type failing []string

func failOn(c *cli.Context) (failing, error) {
	if !c.IsSet("fail-on") {
		return nil, nil
	}
	known := findingNames()
	words := strings.Split(c.String("fail-on"), ",")
	for _, w := range words {
		if slices.Contains(known, w) {
			continue
		}
		hint := "the findings are " + strings.Join(known, ", ")
		if near := nearest(w, known); near != "" {
			hint = "did you mean " + near + "?"
		}
		return nil, misuse(hint, "--fail-on knows no findings %q", w)
	}
	return words, nil
}

// count returns how many of the findings make check fail.
func (f failing) count(findings []analyze.Finding) int {
	n := 0
	for _, x := range findings {
		if slices.Contains(f, "any") || slices.Contains(f, x.Kind) || slices.Contains(f, x.Cause) {
			n++
		}
	}
	return n
}
