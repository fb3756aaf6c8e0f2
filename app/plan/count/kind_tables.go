package count

import "garlandry/app/job"

// tablesKind is so many table pieces of so many balloons.
var tablesKind = kind{job.Tables, (*Draft).tables}

func (d *Draft) tables(c *Counted) { d.bunches(c, "table piece", "table pieces") }
