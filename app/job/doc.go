// Package job holds the nouns of one event to decorate, the operations people make on them, and the fold that
// turns a set of operations into a job.
//
// Start at [Op], the small immutable record of one change; [State], the fold of a set of them; and [Job], the typed
// reading of a state. [Nouns] is the one list of what a job is made of: forms, checks, the job file and its schema
// all follow it, so a new field or noun is one row there.
//
// The package has no clock, no randomness, no storage and no network: an [OpWriter] gets clock and ids from outside. It
// knows nothing of plans, pages or phones.
package job

// Version is the version of operations and of job files that this build writes. Older ones are read for good; newer
// operations are kept and carried without being understood.
const Version = 1
