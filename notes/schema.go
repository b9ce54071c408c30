package notes

import _ "embed"

//go:embed schema/notes.schema.json
var notesSchema string

// Schema returns the JSON Schema of Notes (draft 2020-12).
func Schema() []byte { return []byte(notesSchema) }
