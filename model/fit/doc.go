// Package fit judges whether things go together, rule by rule, from the facts of each thing. The rules are data
// (rules.csv, pairs.csv); this package only evaluates them. It weighs no prices and knows no clauses, so it can check
// what an optimiser built.
//
// Three principles hold for every rule. What stands together on the bike now is said, never forbidden. What one maker
// delivers as one set is taken to go together where a fact of it is not known. And a danger rule is never passed on a
// fact that a bought part does not state.
package fit
