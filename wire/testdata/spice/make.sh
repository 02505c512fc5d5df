#!/usr/bin/env bash
# Renders the netlists from the table in ngspice_networks_test.go, has ngspice
# solve each and writes golden.csv: netlist, kind, name, value in V or A.
# Debian: apt-get install ngspice. The naming of elements stands in
# ngspice_netlist_test.go.
set -euo pipefail
cd "$(dirname "$0")"

(cd ../.. && go test . -run '^TestNetlistsAreThoseOfTheTable$' -netlists)

{
	echo "netlist,kind,name,value"
	for file in *.cir; do
		ngspice -b "$file" | awk -v netlist="${file%.cir}" '
			BEGIN { kind["n"] = "node"; kind["vb"] = "branch"; kind["vs"] = "source"; kind["vl"] = "load" }
			$2 == "=" && match($1, /^(n|vb|vs|vl)_/) {
				name = substr($1, RLENGTH + 1); sub(/#branch$/, "", name)
				print netlist "," kind[substr($1, 1, RLENGTH - 1)] "," name "," $3
				found = 1
			}
			END { if (!found) { print netlist ": no answer" >"/dev/stderr"; exit 1 } }'
	done
} >golden.csv
