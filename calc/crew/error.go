package crew

import "errors"

// Reasons to refuse a job. Errors wrap them and give the details.
var (
	ErrCircle  = errors.New("tasks wait for each other in a circle: take one of them out of what another waits for")
	ErrTooFew  = errors.New("fewer people may work there than the task needs: name more people, or fewer hands")
	ErrMissing = errors.New("the task needs more of a thing than there is: add the thing, or do without")
	ErrAmount  = errors.New("an amount is out of range")
	ErrTwice   = errors.New("a key is used twice")
)
