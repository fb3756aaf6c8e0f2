// Package gallery shows every view with sample data, for people who work on the pages and for the tests that look at
// them: an empty job, the demo half done, long names, names with markup and emoji. It invents people and jobs of our
// own and holds no rule of any page. Start at [Pages].
package gallery
