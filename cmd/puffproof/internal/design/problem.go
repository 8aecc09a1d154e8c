package design

import "puffproof/cmd/puffproof/internal/problem"

// Problem is one fault of a design file.
type Problem = problem.Problem
