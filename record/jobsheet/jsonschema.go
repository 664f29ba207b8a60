package jobsheet

import _ "embed"

//go:embed job.schema.json
var jobSchema string

// JobSchema is the description of a job sheet as JSON for programs that make one: a
// JSON Schema, draft 2020-12. What it takes of the shape of a sheet ParseJob takes
// too; ParseJob takes a little more besides, as its description says.
func JobSchema() string { return jobSchema }
