// Package exact has the functions that give the same float64, to the last bit, on every machine. The phone (wasm) and
// the server compute the same plan, schedule and odds from the same job, each on its own. Their answers must agree.
//
// Three things would make them differ:
//
//   - A compiler may fuse x*y + z into one instruction that rounds once. Go does so on arm64, not on amd64 or in wasm.
//     A conversion, float64(x*y) + z, forbids it. Wherever a sum of products decides something, in calc and in app, the
//     products are written so.
//   - math.Exp, math.Log and others are written in assembly for some machines and in Go for the rest, and may differ in
//     the last bit. Exp and Log here use sums and products only. math.Sqrt is exact everywhere.
//   - Go ranges over a map in another order each time, and a sum of floats depends on the order. Computations sort the
//     keys first, or keep things in a slice.
//
// Package rng draws its numbers by the same rules. Elsewhere in calc the functions of package math are fine where the
// result is shown, or rounded with a tolerance far above the last bit, as counts are.
package exact
