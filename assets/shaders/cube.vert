layout(location = 0) in vec3 position;
layout(location = 1) in vec3 normal;
layout(location = 2) in vec3 info;      // cubie, sticker (-1 on the body), light left by the neighbours
layout(location = 3) in vec2 letter_place;

out vec3 world_normal;
out vec3 towards_eye;
out vec3 letter;                        // place in the letter sheet; z: 1 where there is a letter
out float light;
flat out vec3 colour;

#ifdef MIRRORED
out float gl_ClipDistance[5];
#endif

void main() {
    vec4 body = bodies[int(info.x + 0.5)];
    vec4 shown = info.y < 0.0 ? vec4(body.rgb, -1.0) : stickers[int(info.y + 0.5)];
    vec3 place = body.w > 0.5 ? mat3(turn) * position : position;
    world_normal = body.w > 0.5 ? mat3(turn) * normal : normal;
    vec2 at = letter_place;
#ifdef MIRRORED
    mat4 reflection = reflections[gl_InstanceID];
    place = (reflection * vec4(place, 1.0)).xyz;
    world_normal = mat3(reflection) * world_normal;
    at.x = 1.0 - at.x;
    for (int i = 0; i < 5; ++i)
        gl_ClipDistance[i] = dot(clips[gl_InstanceID * 5 + i], vec4(place, 1.0));
#endif
    towards_eye = eye.xyz - place;
    letter = vec3((clamp(at.x, 0.0, 1.0) + shown.w) / 6.0, 1.0 - at.y, shown.w < 0.0 ? 0.0 : 1.0);
    light = info.z;
    colour = shown.rgb;
    gl_Position = matrix * vec4(place, 1.0);
}
