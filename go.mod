module example.org/extralow

go 1.26

require (
	github.com/google/go-cmp v0.7.0 // indirect
	github.com/shopspring/decimal v1.6.0 // indirect
	github.com/stretchr/testify v1.12.1 // indirect
	go.yaml.in/yaml/v3 v3.0.6 // indirect
)
