layout(location = 0) in vec3 position;
layout(location = 1) in vec3 normal;    // (0, 0, 0) where the mark shines by itself
layout(location = 2) in vec4 paint;
layout(location = 3) in float cubie;    // -1 when it stays in its place

out vec3 world_normal;
out vec4 colour;

#ifdef MIRRORED
out float gl_ClipDistance[5];
#endif

void main() {
    bool moves = cubie > -0.5 && bodies[int(max(cubie, 0.0) + 0.5)].w > 0.5;
    vec3 place = moves ? mat3(turn) * position : position;
    world_normal = moves ? mat3(turn) * normal : normal;
#ifdef MIRRORED
    mat4 reflection = reflections[gl_InstanceID];
    place = (reflection * vec4(place, 1.0)).xyz;
    world_normal = mat3(reflection) * world_normal;
    for (int i = 0; i < 5; ++i)
        gl_ClipDistance[i] = dot(clips[gl_InstanceID * 5 + i], vec4(place, 1.0));
#endif
    colour = paint;
    gl_Position = matrix * vec4(place, 1.0);
}
