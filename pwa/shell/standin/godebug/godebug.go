// Package godebug stands in for internal/godebug when the on-device core is built: a phone has no environment to set
// the compiler's debug settings in, so every setting has its default.
package godebug

// Setting is one debug setting.
type Setting struct{ name string }

// New returns the setting of a name; a leading # marks one that is not documented.
func New(name string) *Setting { return &Setting{name} }

// Name returns the setting's name without the mark.
func (s *Setting) Name() string {
	if s.Undocumented() {
		return s.name[1:]
	}
	return s.name
}

// Undocumented reports whether the name has the mark.
func (s *Setting) Undocumented() bool { return s.name != "" && s.name[0] == '#' }

// String returns the setting as it would stand in the environment.
func (s *Setting) String() string { return s.Name() + "=" }

// Value returns "", the default.
func (s *Setting) Value() string { return "" }

// IncNonDefault has nothing to count.
func (s *Setting) IncNonDefault() {}
