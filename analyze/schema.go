package analyze

import _ "embed"

//go:embed schema/report.schema.json
var reportSchema string

// Schema returns the JSON Schema of Report (draft 2020-12).
func Schema() []byte { return []byte(reportSchema) }
