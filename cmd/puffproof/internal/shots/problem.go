package shots

import "puffproof/cmd/puffproof/internal/problem"

// Problem is one fault of a CSV file.
type Problem = problem.Problem
