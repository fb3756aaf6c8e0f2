// Package crew says who does what when, and whether it will be done in time.
package crew
