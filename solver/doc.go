// Package solver answers the questions around a shed: the best plan for a budget, whether another bike beats it, from
// which budget on, and what it rests on. A shed, tables and an engine go in, a certified Plan comes out. Every plan is
// checked three times by code that did not find it: its program rows and sums (solver/certify), the fit of the bike as
// built and the sum from the sheets' own lines (solver/receipt). A plan that fails a check is an error that names the
// engine, never an answer.
package solver
