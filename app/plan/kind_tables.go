package plan

import "garlandry/app/job"

// tablesKind is so many table pieces of so many balloons.
var tablesKind = kind{job.Tables, (*draft).tables}

func (d *draft) tables(c *counted) { d.bunches(c, "table piece", "table pieces") }
