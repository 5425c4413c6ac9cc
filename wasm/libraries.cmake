# fmt and nlohmann_json from their headers alone, linked into the build so that nothing else of /usr/include is seen.
set(headers ${PROJECT_BINARY_DIR}/include)
file(MAKE_DIRECTORY ${headers})
foreach(library fmt nlohmann)
  file(CREATE_LINK /usr/include/${library} ${headers}/${library} SYMBOLIC)
endforeach()

add_library(fmt STATIC wasm/fmt.cpp)
target_include_directories(fmt SYSTEM PUBLIC ${headers})
target_compile_definitions(fmt PUBLIC FMT_STATIC_THOUSANDS_SEPARATOR=',') # std::locale would come with its tables
add_library(fmt::fmt ALIAS fmt)

add_library(nlohmann_json::nlohmann_json INTERFACE IMPORTED)
target_include_directories(nlohmann_json::nlohmann_json SYSTEM INTERFACE ${headers})

# A failed assert names core/…, not the folder in which somebody built it.
add_compile_options(-fmacro-prefix-map=${PROJECT_SOURCE_DIR}/=)
