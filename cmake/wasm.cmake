# Settings of a build by emscripten: the engine for the page.
#
# Debian's headers of fmt, toml++, nlohmann's JSON and Eigen lie under /usr/include, which emscripten must not see: links
# to them alone, in a folder of their own, and packages that say so.
set(headers ${PROJECT_BINARY_DIR}/headers)
file(MAKE_DIRECTORY ${headers})
foreach(name fmt toml++ nlohmann)
  file(CREATE_LINK /usr/include/${name} ${headers}/${name} SYMBOLIC)
endforeach()
foreach(name Eigen unsupported)
  file(CREATE_LINK /usr/include/eigen3/${name} ${headers}/${name} SYMBOLIC)
endforeach()
foreach(library fmt::fmt-header-only Eigen3::Eigen tomlplusplus::tomlplusplus)
  add_library(${library} INTERFACE IMPORTED GLOBAL)
  set_target_properties(${library} PROPERTIES INTERFACE_SYSTEM_INCLUDE_DIRECTORIES ${headers}
                        INTERFACE_INCLUDE_DIRECTORIES ${headers})
endforeach()
set_target_properties(fmt::fmt-header-only PROPERTIES INTERFACE_COMPILE_DEFINITIONS FMT_HEADER_ONLY=1)
foreach(name fmt eigen3 tomlplusplus)
  file(WRITE ${CMAKE_FIND_PACKAGE_REDIRECTS_DIR}/${name}-config.cmake "# The targets are there.\n")
endforeach()
include_directories(SYSTEM ${headers})

# Exceptions are those of WebAssembly itself, lanes those of its 128 bits. A page from a file has no threads.
add_compile_options(-msimd128 -fwasm-exceptions)
add_link_options(-fwasm-exceptions)
