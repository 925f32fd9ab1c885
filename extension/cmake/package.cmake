# Lays out one .oxt and zips it with fixed dates. STAGE: functions, or all (with templates, menu and help).
set(stage_dir ${GEN}/oxt-${STAGE})
file(REMOVE_RECURSE ${stage_dir})
file(MAKE_DIRECTORY ${stage_dir}/META-INF)
file(COPY_FILE ${PACKAGE}/manifest-${STAGE}.xml ${stage_dir}/META-INF/manifest.xml)
file(COPY ${GEN}/CalcAddIns.xcu ${GEN}/pacecells.rdb ${GEN}/description.xml ${PACKAGE}/pacecells.components ${LIBRARY}
     ${LICENCE} DESTINATION ${stage_dir})
if(STAGE STREQUAL "all")
  # A folder is a group of templates: English ones for everyone, and one more where $(vlang) is a language of ours
  # (Paths.xcu). The office has no fallback between languages, and groups of one name would be mixed.
  foreach(language en de es fr)
    if(EXISTS ${TEMPLATES}/${language})
      set(group "Pacecells (${language})")
      if(language STREQUAL "en")
        set(group Pacecells)
      endif()
      file(COPY ${TEMPLATES}/${language}/ DESTINATION "${stage_dir}/templates/${language}/${group}")
    endif()
  endforeach()
  file(COPY ${EXAMPLES} DESTINATION ${stage_dir})
  file(COPY ${GEN}/Addons.xcu ${GEN}/help DESTINATION ${stage_dir})
  file(GLOB parts ${PACKAGE}/office/*)
  file(COPY ${parts} DESTINATION ${stage_dir})
endif()

file(GLOB_RECURSE names LIST_DIRECTORIES false RELATIVE ${stage_dir} ${stage_dir}/*)
list(SORT names)
foreach(name IN LISTS names)
  file(TOUCH ${stage_dir}/${name})
endforeach()
execute_process(COMMAND touch -d "2020-01-01 00:00:00 UTC" ${names} WORKING_DIRECTORY ${stage_dir} COMMAND_ERROR_IS_FATAL ANY)
file(REMOVE ${OXT})
execute_process(COMMAND ${CMAKE_COMMAND} -E env TZ=UTC ${ZIP} -X -q ${OXT} ${names} WORKING_DIRECTORY ${stage_dir}
  COMMAND_ERROR_IS_FATAL ANY)
