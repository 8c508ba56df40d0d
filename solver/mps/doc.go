// Package mps writes a program's linear form for other solvers and reads what they answer. It takes a program.Linear
// and gives free MPS (read by GLPK, CBC and lp_solve) or LP text in the CPLEX manner (read by GLPK and CBC). It reads
// the solution files of GLPK (glpsol -o) and CBC (solution FILE), and what lp_solve -S3 or -S4 prints.
//
// The objective's constant is left out of both formats, because solvers do not agree on its sign; it stands in a
// comment. An answer is used for its 0/1 columns alone: cash and benefit are reckoned from those.
package mps
